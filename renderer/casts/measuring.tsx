import type { Stock } from '../../shared/api/methods/film-methods.ts';
import { useJobs } from '../api/use-jobs.ts';
import { Progress } from '../ui/progress.tsx';

/** What is being measured, while the plot waits for it; every stock for null. */
export function Measuring({ stock }: { readonly stock: Stock | null }) {
  const job = useJobs().find(({ kind, state }) => kind === 'measure' && state === 'running');
  const rolls =
    stock === null
      ? 'all rolls'
      : `${stock.rolls === 1 ? '1 roll' : `${stock.rolls} rolls`} of ${stock.name}`;
  return (
    <div className="casts-measuring" role="status">
      <p>
        Measuring the casts of {rolls}: the greys of every scanned frame. What is measured is kept, so this is
        slow only the first time.
      </p>
      {job ? (
        <Progress
          label={job.title}
          done={job.done}
          total={job.total}
          text={job.total === null ? `${job.done} rolls` : `${job.done} of ${job.total} rolls`}
        />
      ) : null}
    </div>
  );
}
