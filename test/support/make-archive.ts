import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import { CONTRACT, type Given, type MethodName, type Output } from '../../shared/api/contract.ts';
import { createEngine, type Engine } from '../../main/engine/engine.ts';
import { tempFolder } from './temp-folder.ts';

/** The day on which tests happen. */
export const TEST_DAY = new Date('2026-05-02T10:00:00Z');

export type Ask = <Name extends MethodName>(name: Name, input: Given<Name>) => Promise<Output<Name>>;

export interface TestArchive {
  readonly engine: Engine;
  /** Calls a method; the answer is checked against the contract. */
  readonly ask: Ask;
  readonly folder: string;
}

/** Calls a method of an engine and checks its answer against the contract. */
export function askOf(engine: Engine): Ask {
  return async (name, input) => {
    const answer = await engine.call(name, input);
    return CONTRACT[name].output.parse(answer) as Output<typeof name>;
  };
}

/** A real, empty archive in a folder of its own, closed and removed after the test. */
export async function makeArchive(folder = join(tempFolder(), 'archive')): Promise<TestArchive> {
  const engine = createEngine({ now: () => TEST_DAY });
  onTestFinished(() => engine.close());
  const ask = askOf(engine);
  await ask('archive.create', { folder });
  return { engine, ask, folder };
}
