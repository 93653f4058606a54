import { existsSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { homedir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { createEngine } from '../engine/engine.ts';
import { documentsFolder, settingsFolder } from '../host/user-folders.ts';
import { startWebHost } from './server.ts';

const top = fileURLToPath(new URL('../..', import.meta.url));
const machine = { platform: process.platform, home: homedir(), environment: process.env };

function say(line: string): void {
  process.stdout.write(`${line}\n`);
}

/** Serves the window on this machine until it is told to stop: `main.ts [archive folder] [--port N]`. */
async function run(): Promise<void> {
  const { values, positionals } = parseArgs({
    options: { port: { type: 'string' } },
    allowPositionals: true,
  });
  const staticFolder = join(top, 'dist', 'renderer');
  if (!existsSync(join(staticFolder, 'index.html'))) {
    say('The window is not built yet: npm run build');
    process.exitCode = 1;
    return;
  }
  const manifest: unknown = JSON.parse(await readFile(join(top, 'package.json'), 'utf8'));
  const engine = createEngine();
  const [folder] = positionals;
  if (folder !== undefined) await engine.call('archive.open', { folder });

  const host = await startWebHost({
    engine,
    staticFolder,
    recentFile: join(settingsFolder(machine), 'recent-archives.json'),
    version: String(Reflect.get(Object(manifest), 'version')),
    documentsFolder: documentsFolder(machine),
    ...(values.port === undefined ? {} : { port: Number(values.port) }),
    onBug: (error, reference) => process.stderr.write(`${reference} ${describeBug(error)}\n`),
    onQuit: () => void stop(),
  });
  say(`Edgeprint is open at ${host.url}`);
  say('Ctrl C ends it.');

  async function stop(): Promise<void> {
    await host.close();
    await engine.close();
  }
  process.once('SIGINT', () => void stop());
  process.once('SIGTERM', () => void stop());
}

function describeBug(error: unknown): string {
  return error instanceof Error ? (error.stack ?? error.message) : String(error);
}

await run();
