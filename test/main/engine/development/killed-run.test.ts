import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { onTestFinished, expect, it } from 'vitest';
import { createEngine } from '../../../../main/engine/engine.ts';
import { askOf } from '../../../support/make-archive.ts';
import { tempFolder } from '../../../support/temp-folder.ts';

const PROGRAM = fileURLToPath(new URL('run-program.ts', import.meta.url));
const START_MS = Date.parse('2026-05-02T10:00:00Z');

it('shows the right second and every reading after the process was killed in mid-developer', async () => {
  const folder = join(tempFolder(), 'archive');
  const child = spawn(process.execPath, [PROGRAM, folder, String(START_MS)], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  onTestFinished(() => void child.kill('SIGKILL'));
  const ended = once(child, 'exit').then(() => {
    throw new Error('the program ended before it was killed');
  });
  const [said] = await Promise.race([once(child.stdout, 'data'), ended]);
  ended.catch(() => undefined);
  const id = Number(String(said).trim());
  child.kill('SIGKILL');
  const [, signal] = await once(child, 'exit');
  expect(signal).toBe('SIGKILL');

  const engine = createEngine({ now: () => new Date(START_MS + 127_000) });
  onTestFinished(() => engine.close());
  const ask = askOf(engine);
  await ask('archive.open', { folder });
  // By hand: 127 s since pouring in, 195 − 127 = 68 s left (3:15, Kodak Z-131, Table 4-1).
  expect(await ask('developments.runState', { id })).toMatchObject({
    phase: 'running',
    stepName: 'Developer',
    elapsedSeconds: 127,
    leftSeconds: 68,
    readings: [{ atSeconds: 60, celsius: 37.6 }],
  });
});
