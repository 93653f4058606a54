import { useEffect, useState, type RefObject } from 'react';

/** The inner width of an element in pixels, followed while it changes; `initialPx` before it is known. */
export function useWidth(place: RefObject<HTMLElement | null>, initialPx: number): number {
  const [widthPx, setWidthPx] = useState(initialPx);
  useEffect(() => {
    const element = place.current;
    if (!element || typeof ResizeObserver === 'undefined') return undefined;
    const observer = new ResizeObserver(([entry]) => {
      if (entry && entry.contentRect.width > 0) setWidthPx(Math.floor(entry.contentRect.width));
    });
    observer.observe(element);
    return () => observer.disconnect();
  }, [place]);
  return widthPx;
}
