import { useEffect, useState } from 'react';

/** How often the sheet looks at the clock, ms; digits change by whole seconds. */
const LOOK_MS = 200;

/** The wall clock in milliseconds since 1970 UTC, looked at again and again. Nothing is counted. */
export function useNow(): number {
  const [nowMs, setNowMs] = useState(() => Date.now());
  useEffect(() => {
    const timer = setInterval(() => setNowMs(Date.now()), LOOK_MS);
    return () => clearInterval(timer);
  }, []);
  return nowMs;
}
