import type { ParseArgsConfig } from 'node:util';
import type { Engine } from '../engine/engine.ts';
import type { Given, MethodName, Output } from '../../shared/api/contract.ts';

/** Asks the engine, typed by the contract. */
export type Ask = <Name extends MethodName>(name: Name, input: Given<Name>) => Promise<Output<Name>>;

/** The options of a command as they came, by name. */
export interface Options {
  /** One value, or undefined when the option is not given. */
  text(name: string): string | undefined;
  /** One value. @throws {UsageError} when it is not given */
  need(name: string): string;
  /** Every value of an option that may be repeated, commas split. */
  list(name: string): string[];
  /** A number. @throws {UsageError} when it is none */
  number(name: string): number | undefined;
  flag(name: string): boolean;
}

export interface Invocation {
  readonly engine: Engine;
  readonly ask: Ask;
  readonly options: Options;
  readonly positionals: readonly string[];
  /** The archive folder given with --archive. @throws {UsageError} when it is not given */
  archive(): string;
  /** Waits until a job is done. @throws what the job failed with */
  waitForJob(id: number): Promise<void>;
  /** Tells how far a long job is; goes to stderr and only where a person watches. */
  tell(line: string): void;
}

/** What a command answers: JSON for scripts, lines for people. */
export interface Answer {
  readonly json: unknown;
  readonly lines: readonly string[];
  /** Given when it was not done though nothing went wrong: exit code 1. */
  readonly notDone?: true;
}

export interface Command {
  /** As typed: `roll add`. */
  readonly name: string;
  /** What stands behind the name in the usage. */
  readonly usage: string;
  readonly summary: string;
  readonly options: NonNullable<ParseArgsConfig['options']>;
  /** How many positionals it takes, at least and at most. */
  readonly takes: readonly [number, number];
  /** Whether the archive is opened before it runs. */
  readonly opensArchive: boolean;
  run(invocation: Invocation): Promise<Answer>;
}

/** Wrong usage: exit code 2. */
export class UsageError extends Error {
  override readonly name = 'UsageError';
}
