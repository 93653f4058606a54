import { useEffect, type RefObject } from 'react';

/** The space bar presses the one button of the sheet that is marked for it, wherever the focus is not a button. */
export function useSpace(sheet: RefObject<HTMLElement | null>): void {
  useEffect(() => {
    function press(event: KeyboardEvent): void {
      if (event.key !== ' ' || event.ctrlKey || event.altKey || event.metaKey) return;
      const { target } = event;
      if (target instanceof HTMLButtonElement || target instanceof HTMLTextAreaElement) return;
      if (target instanceof HTMLInputElement && !target.classList.contains('run-pad-input')) return;
      const button = sheet.current?.querySelector<HTMLElement>('[data-space]');
      if (!button) return;
      event.preventDefault();
      if (!event.repeat) button.click();
    }
    window.addEventListener('keydown', press);
    return () => window.removeEventListener('keydown', press);
  }, [sheet]);
}
