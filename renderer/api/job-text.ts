import type { Job } from '../../shared/api/methods/archive-methods.ts';

/** When a job was first seen in this window, and how far it was: what its rate is measured from. */
export interface FirstSeen {
  readonly atMs: number;
  readonly done: number;
}

/** Before this many milliseconds a rate is mere noise. Our choice. */
const SETTLE_MS = 3000;

/** How far a job is, how fast, and how long yet: “120 of 500, 14 a second, 27 s left”. `nowMs` is the clock. */
export function describeJob(job: Job, since: FirstSeen, nowMs: number): string {
  const far = job.total === null ? `${job.done}` : `${job.done} of ${job.total}`;
  const failed = job.failed > 0 ? [`${job.failed} not ${job.kind === 'export' ? 'written' : 'read'}`] : [];
  if (job.state !== 'running') return [`stopped at ${far}`, ...failed].join(', ');
  const elapsedMs = nowMs - since.atMs;
  const perSecond = ((job.done - since.done) * 1000) / elapsedMs;
  if (elapsedMs < SETTLE_MS || perSecond <= 0) return [far, ...failed].join(', ');
  const rate =
    perSecond >= 1 ? `${Math.round(perSecond)} a second` : `one in ${Math.round(1 / perSecond)} seconds`;
  const left = job.total === null ? [] : [`${describeSeconds((job.total - job.done) / perSecond)} left`];
  return [far, ...failed, rate, ...left].join(', ');
}

/** A length of time as one would say it, for waiting: `s` in seconds, not below 0. */
export function describeSeconds(s: number): string {
  if (s < 90) return `${Math.max(1, Math.round(s))} s`;
  if (s < 90 * 60) return `${Math.round(s / 60)} min`;
  const hours = Math.floor(s / 3600);
  return `${hours} h ${Math.round((s - hours * 3600) / 60)} min`;
}
