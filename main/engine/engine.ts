import { resolve } from 'node:path';
import { z } from 'zod';
import { CONTRACT, type MethodName } from '../../shared/api/contract.ts';
import { appError } from '../../shared/api/errors.ts';
import type { EngineEvent } from '../../shared/api/events.ts';
import type { Topic } from '../../shared/api/method.ts';
import { archiveState } from './archive/archive-handlers.ts';
import type { Archive } from './archive/archive.ts';
import { createArchive, openArchive } from './archive/open-archive.ts';
import { shownPreview } from './colour/shown-preview.ts';
import { answerMethod } from './handlers.ts';
import { createJobs, type Jobs } from './jobs/jobs.ts';
import { WORKS } from './jobs/works.ts';
import { makeSample } from './sample/make-sample.ts';

export interface EngineOptions {
  /** The clock; tests give their own. */
  readonly now?: () => Date;
}

/** The archive engine: one archive at a time, every method of the contract. */
export interface Engine {
  /**
   * Answers a method of the contract. `input` is checked.
   * @throws {AppError} method_unknown, value_not_valid, archive_not_open and what the method names
   */
  call(name: string, input: unknown, options?: { readonly signal?: AbortSignal }): Promise<unknown>;
  /** Tells what changed and how far jobs are. */
  onEvent(listener: (event: EngineEvent) => void): () => void;
  /** The file of a preview, made where it is not there yet; null when it cannot be. */
  previewFile(picture: string, size: 'small' | 'large'): Promise<string | null>;
  /** What a job reported when it was done. @throws what it failed with, {AppError} cancelled, job_not_found */
  jobReport(id: number): Promise<unknown>;
  close(): Promise<void>;
}

/** An engine with no archive open. */
export function createEngine({ now = () => new Date() }: EngineOptions = {}): Engine {
  const listeners = new Set<(event: EngineEvent) => void>();
  let open: { readonly archive: Archive; readonly jobs: Jobs } | null = null;

  const tell = (event: EngineEvent) => {
    for (const listener of listeners) listener(event);
  };
  const changed = (topics: readonly Topic[]) => {
    if (topics.length > 0) tell({ type: 'changed', topics: [...topics] });
  };

  async function closeArchive(): Promise<void> {
    const was = open;
    open = null;
    await was?.jobs.close();
    was?.archive.close();
  }

  /** Opens another archive; when that fails, the one that was open stays open. */
  async function useArchive(make: () => Archive): Promise<unknown> {
    const archive = make();
    await closeArchive();
    open = { archive, jobs: createJobs(archive, WORKS, tell) };
    return archiveState(archive);
  }

  async function answer(name: MethodName, input: unknown, signal: AbortSignal): Promise<unknown> {
    if (name === 'archive.create' || name === 'archive.open') {
      const { folder } = CONTRACT[name].input.parse(input);
      if (name === 'archive.open' && open?.archive.folder === resolve(folder))
        return archiveState(open.archive);
      return useArchive(() =>
        name === 'archive.create' ? createArchive(folder, now) : openArchive(folder, now),
      );
    }
    if (name === 'archive.makeSample') {
      const { folder } = CONTRACT[name].input.parse(input);
      await makeSample(engine, folder, () => undefined, now);
      return engine.call('archive.state', {});
    }
    if (name === 'archive.close') {
      await closeArchive();
      return {};
    }
    if (name === 'archive.state') return open ? archiveState(open.archive) : null;
    if (!open) throw appError('archive_not_open', {});
    return answerMethod(name, open.archive, input, { signal, jobs: open.jobs });
  }

  const engine: Engine = {
    call: async (name, given, { signal = new AbortController().signal } = {}) => {
      if (!isMethodName(name)) throw appError('method_unknown', { name });
      const output = await answer(name, checkInput(name, given), signal);
      changed(CONTRACT[name].changes);
      return output;
    },
    onEvent: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    previewFile: (picture, size) =>
      open === null ? Promise.resolve(null) : shownPreview(open.archive, picture, size),
    jobReport: (id) => {
      if (!open) return Promise.reject(appError('archive_not_open', {}));
      return open.jobs.report(id);
    },
    close: closeArchive,
  };
  return engine;
}

function isMethodName(name: string): name is MethodName {
  return Object.hasOwn(CONTRACT, name);
}

function checkInput(name: MethodName, given: unknown): unknown {
  const read = CONTRACT[name].input.safeParse(given);
  if (read.success) return read.data;
  const issue = read.error.issues[0];
  const field = issue?.path.map(String).join('.') || 'input';
  throw appError('value_not_valid', {
    field,
    value: shown(given, issue?.path ?? []),
    reason: z.prettifyError(read.error),
  });
}

/** The value that was refused, short enough for a message. */
function shown(given: unknown, path: readonly PropertyKey[]): string {
  let value: unknown = given;
  for (const key of path)
    value = typeof value === 'object' && value !== null ? Reflect.get(value, key) : undefined;
  return (JSON.stringify(value) ?? 'nothing').slice(0, 200);
}
