import { fork } from 'node:child_process';
import { once } from 'node:events';
import { fileURLToPath } from 'node:url';
import { WebSocketServer } from 'ws';
import { MESSAGE_LIMIT_BYTES } from '../../shared/api/json-value.ts';
import { serve } from '../../shared/api/rpc.ts';
import type { Transport } from '../../shared/api/wire.ts';
import { processTransport } from '../../main/transport/child-process.ts';
import { webSocketTransport } from '../../main/transport/web-socket.ts';
import { browserSocketTransport } from '../../renderer/transport/web-socket.ts';
import { makeLoopback } from '../support/loopback.ts';
import { makeTestService } from './test-methods.ts';

/** A served test table that can be reached again and again, and ended from its own side. */
export interface Reached {
  /** The same connection while it lives, or a fresh one to the same service where the way has such. */
  open(): Promise<Transport>;
  /** Ends the serving side, as a crash would. */
  kill(): void;
  close(): Promise<void>;
}

const OPTIONS = { newReference: () => 'ref-1', onBug: () => {} };

async function reachDirectly(): Promise<Reached> {
  const [near, far] = makeLoopback();
  serve(far, makeTestService(), OPTIONS);
  return { open: async () => near, kill: () => far.close(), close: async () => near.close() };
}

async function reachChild(): Promise<Reached> {
  const program = fileURLToPath(new URL('child-program.ts', import.meta.url));
  const child = fork(program, { execArgv: [] });
  // Many clients share this one channel, one per test.
  child.setMaxListeners(0);
  return {
    open: async () => processTransport(child),
    kill: () => void child.kill('SIGKILL'),
    async close() {
      const gone = child.exitCode === null && child.signalCode === null ? once(child, 'exit') : null;
      child.kill('SIGKILL');
      await gone;
    },
  };
}

async function reachSocket(): Promise<Reached> {
  const server = new WebSocketServer({ host: '127.0.0.1', port: 0, maxPayload: MESSAGE_LIMIT_BYTES });
  await once(server, 'listening');
  const service = makeTestService();
  server.on('connection', (socket) => serve(webSocketTransport(socket), service, OPTIONS));
  const address = server.address();
  if (address === null || typeof address === 'string') throw new Error('The server has no port');
  const url = `ws://127.0.0.1:${address.port}`;
  return {
    async open() {
      const socket = new globalThis.WebSocket(url);
      return browserSocketTransport(socket);
    },
    kill() {
      for (const socket of server.clients) socket.terminate();
    },
    async close() {
      for (const socket of server.clients) socket.terminate();
      server.close();
      await once(server, 'close');
    },
  };
}

export const WAYS: readonly { name: string; reach(): Promise<Reached> }[] = [
  { name: 'direct call', reach: reachDirectly },
  { name: 'child process', reach: reachChild },
  { name: 'WebSocket', reach: reachSocket },
];
