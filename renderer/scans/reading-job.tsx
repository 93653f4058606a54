import { useState } from 'react';
import type { Job } from '../../shared/api/methods/archive-methods.ts';
import { describeJob, type FirstSeen } from '../api/job-text.ts';
import { useCommand } from '../api/use-command.ts';
import { useSeconds } from '../api/use-jobs.ts';
import { Button } from '../ui/button.tsx';
import { Progress } from '../ui/progress.tsx';

/** A folder that is being read, or whose reading was stopped. */
export function ReadingJob({ job }: { readonly job: Job }) {
  const stop = useCommand('jobs.stop');
  const resume = useCommand('jobs.resume');
  const [since, setSince] = useState<FirstSeen>(() => ({ atMs: Date.now(), done: job.done }));
  const nowMs = useSeconds();
  const running = job.state === 'running';
  return (
    <section className="scans-job" aria-label="Reading the folder">
      <p className="scans-job-title">{running ? job.title : `${job.title} was stopped`}</p>
      <Progress label={job.title} done={job.done} total={job.total} text={describeJob(job, since, nowMs)} />
      {running ? (
        <Button busy={stop.pending} onPress={() => void stop.run({ id: job.id })}>
          Stop
        </Button>
      ) : (
        <Button
          look="main"
          busy={resume.pending}
          onPress={() => {
            // The time it stood still is not part of its rate.
            setSince({ atMs: Date.now(), done: job.done });
            void resume.run({ id: job.id });
          }}
        >
          Go on
        </Button>
      )}
      <p className="scans-job-note">
        What has been read is kept. The proposal comes when all of it is read; nothing is recorded before.
      </p>
    </section>
  );
}
