import type { Input, MethodName, Output } from '../../shared/api/contract.ts';
import type { Archive } from './archive/archive.ts';
import type { Jobs } from './jobs/jobs.ts';

/** What runs beside the answer of a method: it may be called off, and may start a job. */
export interface Run {
  readonly signal: AbortSignal;
  readonly jobs: Jobs;
}

/** What answers one method on an open archive. */
type Handler<Name extends MethodName> = (
  archive: Archive,
  input: Input<Name>,
  run: Run,
) => Output<Name> | Promise<Output<Name>>;

/** One handler per method named. */
export type HandlersOf<Names extends MethodName> = { readonly [Name in Names]: Handler<Name> };
