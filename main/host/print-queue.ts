import { execFile } from 'node:child_process';

/** What a finished command said. */
interface Ran {
  readonly ok: boolean;
  readonly out: string;
}

/** Runs a program, given as a path or a name on the path, without a shell. */
export type RunProgram = (program: string, args: readonly string[]) => Promise<Ran>;

/** Runs a program for at most 20 seconds; one that is not there or fails is not ok. */
export const runProgram: RunProgram = (program, args) =>
  new Promise((resolve) => {
    execFile(program, args, { timeout: 20_000, encoding: 'utf8' }, (error, out) =>
      resolve({ ok: error === null, out }),
    );
  });

/**
 * Names of the print queues of the system; none where there is no CUPS.
 * Source: CUPS 2.4, lpstat(1): `-e` lists available destinations, one a line.
 */
export async function listPrinters(run: RunProgram): Promise<string[]> {
  const { ok, out } = await run('lpstat', ['-e']);
  return ok
    ? out
        .split('\n')
        .map((line) => line.trim())
        .filter((line) => line !== '')
    : [];
}

/**
 * Sends a PDF to a queue at its true size; null when no queue took it.
 * Source: CUPS 2.4, lp(1); `print-scaling` with the keyword `none` is the job attribute of the Internet Printing
 * Protocol for "do not scale" (PWG registry of IPP attributes). A printer may ignore it: the sheet carries a bar
 * to lay a ruler on.
 */
export async function printAtTrueSize(
  run: RunProgram,
  path: string,
  printer: string | null,
): Promise<{ printer: string | null; job: string } | null> {
  const { ok, out } = await run('lp', [
    ...(printer === null ? [] : ['-d', printer]),
    '-o',
    'print-scaling=none',
    '--',
    path,
  ]);
  if (!ok) return null;
  // "request id is Laser-12 (1 file(s))"
  return { printer, job: /request id is (\S+)/.exec(out)?.[1] ?? '' };
}
