import type { Job } from '../../../shared/api/methods/archive-methods.ts';
import type { Archive } from '../archive/archive.ts';
import type { Jobs } from '../jobs/jobs.ts';
import { countDescribed } from './describe-pictures.ts';

/**
 * Starts describing the pictures that wait for it; the job that does so already, or null when none waits. One that was
 * stopped or broken off goes on, so that there is never more than one to look at.
 */
export function startDescribing(archive: Archive, jobs: Jobs): Job | null {
  const running = jobs.list().find((job) => job.kind === 'describe' && job.state === 'running');
  if (running) return running;
  if (countDescribed(archive.db).waiting === 0) return null;
  const stopped = jobs.list().find((job) => job.kind === 'describe' && job.state === 'stopped');
  if (stopped === undefined) return jobs.start('describe', 'Learning what pictures show', {});
  jobs.resume(stopped.id);
  return stopped;
}
