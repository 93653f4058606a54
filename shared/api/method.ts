import type { z } from 'zod';

/** One method of the contract: what goes in and what comes out, as JSON values only. */
export interface Method<Input extends z.ZodType = z.ZodType, Output extends z.ZodType = z.ZodType> {
  readonly input: Input;
  readonly output: Output;
}

/** A table of methods by name, `noun.verb`. */
export type MethodTable = Readonly<Record<string, Method>>;

/** Declares one method. */
export function method<Input extends z.ZodType, Output extends z.ZodType>(
  input: Input,
  output: Output,
): Method<Input, Output> {
  return { input, output };
}
