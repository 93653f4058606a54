import { useEffect } from 'react';

/** Keeps the screen from going dark while the component is shown, where the platform can. */
export function useAwake(): void {
  useEffect(() => {
    let lock: WakeLockSentinel | null = null;
    let gone = false;

    async function ask(): Promise<void> {
      if (document.visibilityState !== 'visible' || !('wakeLock' in navigator)) return;
      try {
        const got = await navigator.wakeLock.request('screen');
        if (gone) await got.release();
        else lock = got;
      } catch {
        // The system may refuse, as on a low battery; the run does not depend on it.
      }
    }
    // The system takes the lock away whenever the window is hidden.
    const again = () => void ask();
    document.addEventListener('visibilitychange', again);
    void ask();
    return () => {
      gone = true;
      document.removeEventListener('visibilitychange', again);
      void lock?.release();
    };
  }, []);
}
