import { chmodSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import {
  listPrinters,
  printAtTrueSize,
  runProgram,
  type RunProgram,
} from '../../../main/host/print-queue.ts';

/** Stands in for the system's programs: scripts of our own in a folder, run by the real runner. */
let folder: string;
const runHere: RunProgram = (program, args) => runProgram(join(folder, program), args);

function script(name: string, text: string): void {
  writeFileSync(join(folder, name), `#!/bin/sh\n${text}\n`);
  chmodSync(join(folder, name), 0o755);
}

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'edgeprint-test-'));
});
afterEach(() => rmSync(folder, { recursive: true }));

describe.runIf(process.platform !== 'win32')('the print queue', () => {
  it('lists the queues, one a line', async () => {
    script('lpstat', 'printf "Laser\\nPhoto_printer\\n"');
    expect(await listPrinters(runHere)).toEqual(['Laser', 'Photo_printer']);
  });

  it('has no queues where there is no print system', async () => {
    expect(await listPrinters(runHere)).toEqual([]);
  });

  it('hands the file over with scaling off', async () => {
    script(
      'lp',
      `printf '%s\\n' "$@" > "${join(folder, 'args')}"; echo "request id is Laser-12 (1 file(s))"`,
    );
    const sent = await printAtTrueSize(runHere, '/tmp/a sheet.pdf', 'Laser');
    expect(sent).toEqual({ printer: 'Laser', job: 'Laser-12' });
    expect(readFileSync(join(folder, 'args'), 'utf8').trim().split('\n')).toEqual([
      '-d',
      'Laser',
      '-o',
      'print-scaling=none',
      '--',
      '/tmp/a sheet.pdf',
    ]);
  });

  it('says so when no queue took it', async () => {
    script('lp', 'echo "lp: Error - no default destination available." >&2; exit 1');
    expect(await printAtTrueSize(runHere, '/tmp/a.pdf', null)).toBeNull();
  });
});
