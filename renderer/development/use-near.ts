import { useEffect, useState, type RefObject } from 'react';

/** How far outside of what can be seen a thing counts as near, px. Our choice: about a screen. */
const NEAR_PX = 800;

/** Whether an element has come near to what can be seen; once it has, it stays so. */
export function useNear(element: RefObject<HTMLElement | null>): boolean {
  const [near, setNear] = useState(() => typeof IntersectionObserver === 'undefined');
  useEffect(() => {
    const watched = element.current;
    if (near || watched === null) return undefined;
    const observer = new IntersectionObserver(
      (entries) => {
        if (entries.some((entry) => entry.isIntersecting)) setNear(true);
      },
      { rootMargin: `${NEAR_PX}px` },
    );
    observer.observe(watched);
    return () => observer.disconnect();
  }, [element, near]);
  return near;
}
