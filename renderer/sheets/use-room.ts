import { useEffect, useState, type RefObject } from 'react';

/** How large an element is in pixels, followed; null until it is known. */
export function useRoom(element: RefObject<HTMLElement | null>): { width: number; height: number } | null {
  const [room, setRoom] = useState<{ width: number; height: number } | null>(null);
  useEffect(() => {
    const watched = element.current;
    if (!watched || typeof ResizeObserver === 'undefined') return undefined;
    const observer = new ResizeObserver(([entry]) => {
      if (entry) setRoom({ width: entry.contentRect.width, height: entry.contentRect.height });
    });
    observer.observe(watched);
    return () => observer.disconnect();
  }, [element]);
  return room;
}
