import { useEffect, useRef, useState } from 'react';

/** A difference below this is the clock being trimmed, not set, seconds. Our choice. */
const SET_SECONDS = 2;

/**
 * Watches the wall clock against one that only runs. A wall clock that went back was set: `onSet` is told by how
 * many seconds (negative). One that leapt ahead was set, or the machine slept and the time did pass: that is for
 * the user to say, and stays in `aheadSeconds` until it is cleared.
 */
export function useClockShift(onSet: (seconds: number) => void): {
  readonly aheadSeconds: number | null;
  clear(): void;
} {
  const [aheadSeconds, setAhead] = useState<number | null>(null);
  const tell = useRef(onSet);
  useEffect(() => {
    tell.current = onSet;
  }, [onSet]);
  useEffect(() => {
    let difference = Date.now() - performance.now();
    const timer = setInterval(() => {
      const present = Date.now() - performance.now();
      const seconds = (present - difference) / 1000;
      difference = present;
      if (seconds <= -SET_SECONDS) tell.current(seconds);
      else if (seconds >= SET_SECONDS) setAhead(seconds);
    }, 1000);
    return () => clearInterval(timer);
  }, []);
  return { aheadSeconds, clear: () => setAhead(null) };
}
