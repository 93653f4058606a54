import { useEffect, useState } from 'react';
import type { Job } from '../../shared/api/methods/archive-methods.ts';
import { useClients } from './clients-context.tsx';
import { useArchive } from './use-query.ts';

/** The engine's list of jobs, with what their events have told since. */
export function useJobs(): readonly Job[] {
  const { engine } = useClients();
  const { data } = useArchive('jobs.list', {});
  const [told, setTold] = useState<ReadonlyMap<number, Job>>(new Map());
  useEffect(
    () =>
      engine.onEvent((event) => {
        if (event.type === 'job') setTold((before) => new Map(before).set(event.job.id, event.job));
      }),
    [engine],
  );
  const listed = (data ?? []).map((job) => told.get(job.id) ?? job);
  const begun = [...told.values()].filter((job) => listed.every(({ id }) => id !== job.id));
  return [...listed, ...begun];
}

/** The clock in milliseconds, a whole second at a time. */
export function useSeconds(): number {
  const [nowMs, setNowMs] = useState(() => Date.now());
  useEffect(() => {
    const timer = setInterval(() => setNowMs(Date.now()), 1000);
    return () => clearInterval(timer);
  }, []);
  return nowMs;
}
