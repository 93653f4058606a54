import type { z } from 'zod';

/** What part of the archive a method may change; windows refetch what they show of it. */
export const TOPICS = [
  'archive',
  'stocks',
  'cameras',
  'rolls',
  'frames',
  'outings',
  'developments',
  'baths',
  'binders',
  'scans',
  'sheets',
  'searches',
  'jobs',
] as const;
export type Topic = (typeof TOPICS)[number];

/** One method of the contract: what goes in, what comes out (JSON values only), and what it may change. */
export interface Method<Input extends z.ZodType = z.ZodType, Output extends z.ZodType = z.ZodType> {
  readonly input: Input;
  readonly output: Output;
  readonly changes: readonly Topic[];
}

/** A table of methods by name, `nouns.verb`. */
export type MethodTable = Readonly<Record<string, Method>>;

/** Declares one method. */
export function method<Input extends z.ZodType, Output extends z.ZodType>(
  input: Input,
  output: Output,
  changes: readonly Topic[] = [],
): Method<Input, Output> {
  return { input, output, changes };
}
