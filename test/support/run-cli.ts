import { spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const MAIN = fileURLToPath(new URL('../../main/cli/main.ts', import.meta.url));

export interface CliResult {
  readonly code: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

/** Runs the command line as a process of its own; `killAfterMs` ends it with SIGKILL then. */
export function runCli(words: readonly string[], killAfterMs: number | null = null): Promise<CliResult> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [MAIN, ...words], { stdio: ['ignore', 'pipe', 'pipe'] });
    const out: Buffer[] = [];
    const err: Buffer[] = [];
    child.stdout.on('data', (part: Buffer) => out.push(part));
    child.stderr.on('data', (part: Buffer) => err.push(part));
    child.on('error', reject);
    const timer = killAfterMs === null ? null : setTimeout(() => child.kill('SIGKILL'), killAfterMs);
    child.on('close', (code) => {
      if (timer) clearTimeout(timer);
      resolve({ code, stdout: Buffer.concat(out).toString(), stderr: Buffer.concat(err).toString() });
    });
  });
}

/** Runs a command with --json and gives what it answered. */
export async function askCli(
  words: readonly string[],
): Promise<{ readonly code: number | null; readonly json: unknown }> {
  const result = await runCli([...words, '--json']);
  try {
    return { code: result.code, json: JSON.parse(result.stdout) };
  } catch (error) {
    throw new Error(`No JSON came: ${result.stdout}\n${result.stderr}`, { cause: error });
  }
}
