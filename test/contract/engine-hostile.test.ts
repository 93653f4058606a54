import { fork } from 'node:child_process';
import { once } from 'node:events';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { WebSocket } from 'ws';
import { CONTRACT } from '../../shared/api/contract.ts';
import { engineEvent } from '../../shared/api/events.ts';
import { connect, serve } from '../../shared/api/rpc.ts';
import type { Transport } from '../../shared/api/wire.ts';
import { createEngine } from '../../main/engine/engine.ts';
import { processTransport } from '../../main/transport/child-process.ts';
import { webSocketTransport } from '../../main/transport/web-socket.ts';
import { startWebHost } from '../../main/web/server.ts';
import { makeLoopback } from '../support/loopback.ts';

// The real engine, reached in each of the three ways it is reached in the product, against every method there is.

interface Reached {
  readonly transport: Transport;
  close(): Promise<void>;
}

const bugs: unknown[] = [];
const options = { newReference: () => 'ref', onBug: (error: unknown) => void bugs.push(error) };

async function reachDirectly(): Promise<Reached> {
  const engine = createEngine();
  const [near, far] = makeLoopback();
  serve(far, engine, options);
  return { transport: near, close: () => engine.close() };
}

async function reachChild(): Promise<Reached> {
  const child = fork(fileURLToPath(new URL('../../main/engine-entry.ts', import.meta.url)), { execArgv: [] });
  return {
    transport: processTransport(child),
    async close() {
      const gone = once(child, 'exit');
      child.disconnect();
      await gone;
    },
  };
}

async function reachWebHost(folder: string): Promise<Reached> {
  const engine = createEngine();
  const staticFolder = join(folder, 'window');
  mkdirSync(staticFolder);
  writeFileSync(join(staticFolder, 'index.html'), '');
  const host = await startWebHost({
    engine,
    staticFolder,
    recentFile: join(folder, 'recent.json'),
    version: '0',
    onBug: options.onBug,
    onQuit: () => {},
  });
  const login = await fetch(host.url, { redirect: 'manual' });
  const cookie = login.headers.get('set-cookie')?.split(';')[0] ?? '';
  const socket = new WebSocket(`${host.origin.replace('http', 'ws')}/wire/engine`, {
    headers: { cookie, origin: host.origin },
  });
  await once(socket, 'open');
  return {
    transport: webSocketTransport(socket),
    async close() {
      await host.close();
      await engine.close();
    },
  };
}

const WAYS = [
  { name: 'a direct call', reach: reachDirectly },
  { name: 'a child process', reach: reachChild },
  { name: 'the web host', reach: reachWebHost },
] as const;

const HOSTILE: readonly unknown[] = [
  null,
  5,
  'text',
  [],
  { surely_no_key_of_ours: 1 },
  JSON.parse('{"__proto__":{"id":1}}'),
  { constructor: { prototype: { id: 1 } } },
  { id: { toString: 'x' }, folder: ['/'], file: 1, rollId: '1; DROP TABLE roll' },
];

describe.each(WAYS)('the engine over $name', ({ reach }) => {
  let folder: string;
  let reached: Reached;
  let lastId = 0;

  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'edgeprint-hostile-'));
    reached = await reach(folder);
    const client = connect(reached.transport, CONTRACT, engineEvent, true);
    await client.call('archive.create', { folder: join(folder, 'archive') });
    lastId = 1000;
  });
  afterAll(async () => {
    await reached.close();
    rmSync(folder, { recursive: true });
  });

  function ask(method: string, input: unknown): Promise<unknown> {
    lastId += 1;
    const id = lastId;
    return new Promise((resolve) => {
      const off = reached.transport.onMessage((reply) => {
        if (Reflect.get(Object(reply), 'id') !== id) return;
        off();
        resolve(Reflect.get(Object(reply), 'error') ?? { code: 'answered' });
      });
      reached.transport.send({ kind: 'request', id, method, input });
    });
  }

  it.each(Object.keys(CONTRACT))('refuses by the name of the field whatever %s cannot use', async (name) => {
    const codes: unknown[] = [];
    for (const input of HOSTILE) codes.push(Reflect.get(Object(await ask(name, input)), 'code'));
    expect(new Set(codes)).toEqual(new Set(['value_not_valid']));
  });

  it.each(['scans.read', 'archive.open', 'archive.create'])(
    'refuses a folder that is none in %s',
    async (name) => {
      const refused = ['archive_missing', 'folder_missing', 'folder_unreadable', 'file_not_written'];
      // A file for a folder, and a name longer than any disk takes: neither can be made either.
      for (const path of ['/dev/null/archive', join(folder, 'x'.repeat(3000))]) {
        expect(refused).toContain(Reflect.get(Object(await ask(name, { folder: path })), 'code'));
      }
    },
  );

  it('is alive after all of this, with a sound archive', async () => {
    const client = connect(reached.transport, CONTRACT, engineEvent, true);
    const state = await client.call('archive.open', { folder: join(folder, 'archive') });
    expect(state.rolls).toBe(0);
    expect((await client.call('archive.check', {})).findings).toEqual([]);
  });
});

describe('hostile input', () => {
  it('is no bug of ours', () => {
    expect(bugs).toEqual([]);
  });
});
