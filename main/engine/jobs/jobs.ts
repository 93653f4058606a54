import { z } from 'zod';
import { appError, isAppError } from '../../../shared/api/errors.ts';
import type { EngineEvent } from '../../../shared/api/events.ts';
import type { Job } from '../../../shared/api/methods/archive-methods.ts';
import type { Archive } from '../archive/archive.ts';
import { command, query } from '../db/query.ts';

/** How a job tells how far it is. */
export interface Progress {
  /** How many there are, when that is known. */
  total(count: number): void;
  /** One more is done; `failed` when it could not be. */
  step(failed?: boolean): void;
}

/** What a kind of job does. It must bear being killed at any moment and started again. */
export type Work = (
  archive: Archive,
  input: unknown,
  progress: Progress,
  signal: AbortSignal,
) => Promise<unknown>;

export interface Jobs {
  start(kind: Job['kind'], title: string, input: unknown): Job;
  /** What the job reported when it was done. @throws what the job failed with, {AppError} cancelled, job_not_found */
  report(id: number): Promise<unknown>;
  list(): Job[];
  /** @throws {AppError} job_not_found */
  stop(id: number): Promise<void>;
  /** Goes on with a job that was stopped or broken off. @throws {AppError} job_not_found */
  resume(id: number): void;
  close(): Promise<void>;
}

/** Progress is told at most this often, in milliseconds: fast enough to look alive, rare enough to cost nothing. */
const TELL_EVERY_MS = 150;

const jobRow = z.object({
  id: z.number(),
  kind: z.enum(['scan-in', 'describe', 'measure', 'export']),
  title: z.string(),
  state: z.enum(['running', 'stopped', 'done', 'failed']),
  done: z.number(),
  total: z.number().nullable(),
  failed: z.number(),
  startedAt: z.string(),
  endedAt: z.string().nullable(),
  input: z.string(),
});

const SELECT = `SELECT id, kind, json_extract(input_json, '$.title') AS title, state, done, total,
  coalesce(json_extract(report_json, '$.failed'), 0) AS failed, started_at AS startedAt, ended_at AS endedAt,
  json_extract(input_json, '$.input') AS input FROM job`;

interface Running {
  readonly stop: AbortController;
  readonly end: Promise<unknown>;
  job: Job;
}

/** The jobs of an archive; one that a crash broke off stands as stopped and can be resumed. */
export function createJobs(
  archive: Archive,
  works: Readonly<Record<Job['kind'], Work>>,
  tell: (event: EngineEvent) => void,
): Jobs {
  const { db } = archive;
  const running = new Map<number, Running>();
  const ended = new Map<number, Promise<unknown>>();
  command(db, `UPDATE job SET state = 'stopped' WHERE state = 'running'`)();

  const save = command(
    db,
    `UPDATE job SET state = :state, done = :done, total = :total, ended_at = :endedAt,
       report_json = json_object('failed', :failed) WHERE id = :id`,
  );
  const now = () => archive.now().toISOString();

  function requireRow(id: number): z.output<typeof jobRow> {
    const row = query(db, jobRow, `${SELECT} WHERE id = :id`).find({ id });
    if (!row) throw appError('job_not_found', { name: String(id) });
    return row;
  }

  function run(first: Job, input: unknown): Job {
    const stop = new AbortController();
    let lastTold = 0;
    const change = (part: Partial<Job>, always: boolean) => {
      entry.job = { ...entry.job, ...part };
      const at = performance.now();
      if (!always && at - lastTold < TELL_EVERY_MS) return;
      lastTold = at;
      tell({ type: 'job', job: entry.job });
    };
    const progress: Progress = {
      total: (total) => change({ total }, true),
      step: (failed = false) =>
        change({ done: entry.job.done + 1, failed: entry.job.failed + (failed ? 1 : 0) }, false),
    };
    const finish = (state: Job['state']) => {
      change({ state, endedAt: now() }, true);
      const { id, done, total, failed, endedAt } = entry.job;
      save({ id, state, done, total, failed, endedAt });
      running.delete(id);
      ended.set(id, entry.end);
      tell({ type: 'changed', topics: ['jobs', 'scans'] });
    };
    const work = async () => {
      // A turn of the event loop first, so that whoever started the job has its number before any news of it.
      await new Promise(setImmediate);
      try {
        const report = await works[first.kind](archive, input, progress, stop.signal);
        finish('done');
        return report;
      } catch (error) {
        finish(isAppError(error, 'cancelled') ? 'stopped' : 'failed');
        throw error;
      }
    };
    const end = work();
    // Whoever asks for the report gets the failure; a job nobody asks after must not end the process.
    end.catch(() => undefined);
    const entry: Running = { stop, end, job: first };
    running.set(first.id, entry);
    return first;
  }

  return {
    start: (kind, title, input) => {
      const startedAt = now();
      const { id } = command(
        db,
        `INSERT INTO job (kind, input_json, state, started_at) VALUES (:kind, :input, 'running', :startedAt)`,
      )({ kind, input: JSON.stringify({ title, input: JSON.stringify(input) }), startedAt });
      return run(
        { id, kind, title, state: 'running', done: 0, total: null, failed: 0, startedAt, endedAt: null },
        input,
      );
    },
    report: (id) => {
      const end = running.get(id)?.end ?? ended.get(id);
      return end ?? Promise.reject(appError('job_not_found', { name: String(id) }));
    },
    list: () =>
      query(db, jobRow, `${SELECT} ORDER BY id DESC LIMIT 100`)
        .all()
        .map(({ input: _input, ...job }) => running.get(job.id)?.job ?? job),
    stop: async (id) => {
      requireRow(id);
      const found = running.get(id);
      found?.stop.abort();
      await found?.end.catch(() => undefined);
    },
    resume: (id) => {
      const { input, ...job } = requireRow(id);
      if (running.has(id)) return;
      command(db, `UPDATE job SET state = 'running', ended_at = NULL WHERE id = :id`)({ id });
      run({ ...job, state: 'running', done: 0, failed: 0, endedAt: null }, JSON.parse(input));
    },
    close: async () => {
      for (const job of running.values()) job.stop.abort();
      await Promise.allSettled([...running.values()].map((job) => job.end));
    },
  };
}
