import { useSyncExternalStore } from 'react';

function follow(listener: () => void): () => void {
  window.addEventListener('resize', listener);
  return () => window.removeEventListener('resize', listener);
}

/** The inner size of the window in pixels, followed. */
export function useWindowSize(): { readonly widthPx: number; readonly heightPx: number } {
  const widthPx = useSyncExternalStore(follow, () => window.innerWidth);
  const heightPx = useSyncExternalStore(follow, () => window.innerHeight);
  return { widthPx, heightPx };
}
