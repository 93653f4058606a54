import { useState } from 'react';
import type { Job } from '../../shared/api/methods/archive-methods.ts';
import { describeJob, type FirstSeen } from '../api/job-text.ts';
import { useCommand } from '../api/use-command.ts';
import { useJobs, useSeconds } from '../api/use-jobs.ts';
import { Button } from '../ui/button.tsx';
import { Progress } from '../ui/progress.tsx';
import './job-line.css';

/** The jobs that are running or were stopped before their end, with how far they are; nothing when there is none. */
export function JobLine() {
  const jobs = useJobs();
  const open = jobs.filter((job) => job.state === 'running' || job.state === 'stopped');
  if (open.length === 0) return null;
  return (
    <section className="job-line" aria-label="Jobs">
      {open.map((job) => (
        <JobRow key={job.id} job={job} />
      ))}
    </section>
  );
}

function JobRow({ job }: { job: Job }) {
  const stop = useCommand('jobs.stop');
  const resume = useCommand('jobs.resume');
  const [since, setSince] = useState<FirstSeen>(() => ({ atMs: Date.now(), done: job.done }));
  const nowMs = useSeconds();
  return (
    <div className="job-row">
      <span className="job-title">{job.title}</span>
      <Progress label={job.title} done={job.done} total={job.total} text={describeJob(job, since, nowMs)} />
      {job.state === 'running' ? (
        <Button
          look="quiet"
          busy={stop.pending}
          onPress={() => void stop.run({ id: job.id })}
          name={`Stop ${job.title}`}
        >
          Stop
        </Button>
      ) : (
        <Button
          look="quiet"
          busy={resume.pending}
          name={`Go on with ${job.title}`}
          onPress={() => {
            // The time it stood still is not part of its rate.
            setSince({ atMs: Date.now(), done: job.done });
            void resume.run({ id: job.id });
          }}
        >
          Go on
        </Button>
      )}
    </div>
  );
}
