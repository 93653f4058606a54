import { useEffect, useState, type RefObject } from 'react';

/** The inner size of an element in pixels, followed while it changes; null before it is known. */
export function useRoom(
  place: RefObject<HTMLElement | null>,
): { readonly widthPx: number; readonly heightPx: number } | null {
  const [room, setRoom] = useState<{ widthPx: number; heightPx: number } | null>(null);
  useEffect(() => {
    const element = place.current;
    if (!element) return undefined;
    const observer = new ResizeObserver(([entry]) => {
      if (!entry) return;
      const [widthPx, heightPx] = [entry.contentRect.width, entry.contentRect.height];
      setRoom((before) =>
        before?.widthPx === widthPx && before.heightPx === heightPx ? before : { widthPx, heightPx },
      );
    });
    observer.observe(element);
    return () => observer.disconnect();
  }, [place]);
  return room;
}
