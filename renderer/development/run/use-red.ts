import { useEffect } from 'react';

/** Draws the whole window in the deep red of a darkroom while the component is shown, and gives it back after. */
export function useRed(red: boolean): void {
  useEffect(() => {
    if (!red) return undefined;
    const page = document.documentElement;
    const before = page.dataset['appearance'];
    page.dataset['appearance'] = 'red';
    return () => {
      if (before === undefined) delete page.dataset['appearance'];
      else page.dataset['appearance'] = before;
    };
  }, [red]);
}
