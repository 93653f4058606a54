import { spawn, type ChildProcess } from 'node:child_process';
import { randomBytes } from 'node:crypto';
import { once } from 'node:events';
import { CONTRACT } from '../../shared/api/contract.ts';
import { appError, type AppError } from '../../shared/api/errors.ts';
import { engineEvent } from '../../shared/api/events.ts';
import { PREVIEW_METHODS } from '../../shared/api/host-contract.ts';
import { connect, passOn, type Service } from '../../shared/api/rpc.ts';
import type { Unsubscribe } from '../../shared/api/wire.ts';
import type { PreviewSize } from '../../shared/api/preview-url.ts';
import { processTransport } from '../transport/child-process.ts';

const CHILD_METHODS = { ...CONTRACT, ...PREVIEW_METHODS } as const;

/** How the child is. */
export type EngineProcessState = 'starting' | 'running' | 'failed';

export interface EngineProcessOptions {
  /** A plain Node that can run our sources. */
  readonly nodePath: string;
  readonly entry: string;
  /** Told of each failure, under the reference that the window shows. */
  onFailure(reference: string, how: string): void;
}

/** The archive's engine in a process of its own, started again when it fails. */
export interface EngineProcess {
  /** The engine's contract; its calls reject with engine_stopped while there is no engine. */
  readonly service: Service;
  previewFile(pictureId: string, size: PreviewSize): Promise<string | null>;
  onState(listener: (state: EngineProcessState) => void): Unsubscribe;
  /** Told of each failure with the error that the windows get. */
  onFailed(listener: (error: AppError) => void): Unsubscribe;
  /** Starts a failed engine at once; does nothing to a running one. */
  restart(): void;
  /** Lets the engine close its archive and waits for its end. */
  close(): Promise<void>;
}

/** A failed engine is started again after this long, unless it fails too often. Our choice. */
const RESTART_MS = 500;
/** More failures than this within the window below, and it waits for the user. Our choice. */
const FAILURES_ALLOWED = 3;
const FAILURE_WINDOW_MS = 60_000;
/** An engine that has not ended this long after it was asked to is ended. Our choice: a checkpoint takes less. */
const CLOSE_MS = 10_000;

/** Starts the engine. The archive that was open when it failed is opened again. */
export function startEngineProcess(options: EngineProcessOptions): EngineProcess {
  const eventListeners = new Set<(event: unknown) => void>();
  const stateListeners = new Set<(state: EngineProcessState) => void>();
  const failureListeners = new Set<(error: AppError) => void>();
  const failuresMs: number[] = [];
  let current: { child: ChildProcess; client: ReturnType<typeof connectChild> } | null = null;
  let folder: string | null = null;
  let closing = false;
  let timer: NodeJS.Timeout | null = null;

  function tellState(state: EngineProcessState): void {
    for (const listener of stateListeners) listener(state);
  }

  function start(): void {
    timer = null;
    tellState('starting');
    const child = spawn(options.nodePath, [options.entry], {
      stdio: ['ignore', 'inherit', 'inherit', 'ipc'],
      // Two arenas keep the memory of image work flat; it has to be set before the process starts.
      env: { ...process.env, MALLOC_ARENA_MAX: '2' },
    });
    const client = connectChild(child);
    current = { child, client };
    client.onEvent((event) => {
      for (const listener of eventListeners) listener(event);
      if (event.type === 'changed' && event.topics.includes('archive')) void rememberFolder(client);
    });
    let over = false;
    const end = (how: string) => {
      if (!over) failed(how);
      over = true;
    };
    child.on('error', (error) => end(error.message));
    child.on('exit', (code, signal) => end(`ended with ${signal ?? String(code)}`));
    void greet(client);
  }

  async function greet(client: ReturnType<typeof connectChild>): Promise<void> {
    try {
      await client.call('archive.state', {});
      if (folder !== null) await client.call('archive.open', { folder });
    } catch {
      // Either the child has ended, which its exit tells, or the archive has gone, which the window will find.
    }
    if (current?.client === client) tellState('running');
  }

  async function rememberFolder(client: ReturnType<typeof connectChild>): Promise<void> {
    try {
      folder = (await client.call('archive.state', {}))?.folder ?? null;
    } catch {
      // The child has ended in between; the folder of before is the one to open again.
    }
  }

  function failed(how: string): void {
    current = null;
    if (closing) return;
    const reference = randomBytes(4).toString('hex');
    options.onFailure(reference, how);
    tellState('failed');
    for (const listener of failureListeners) listener(appError('internal', { reference }));
    const nowMs = Date.now();
    failuresMs.push(nowMs);
    const recent = failuresMs.filter((atMs) => nowMs - atMs < FAILURE_WINDOW_MS);
    if (recent.length <= FAILURES_ALLOWED) timer = setTimeout(start, RESTART_MS);
  }

  start();

  return {
    service: {
      call(name, input, callOptions) {
        if (!current) return Promise.reject(appError('engine_stopped', {}));
        return passOn(CONTRACT, current.client).call(name, input, callOptions);
      },
      onEvent: (listener) => listen(eventListeners, listener),
    },
    async previewFile(pictureId, size) {
      if (!current) return null;
      return (await current.client.call('previews.file', { pictureId, size })).path;
    },
    onState: (listener) => listen(stateListeners, listener),
    onFailed: (listener) => listen(failureListeners, listener),
    restart() {
      if (current || closing) return;
      if (timer) clearTimeout(timer);
      failuresMs.length = 0;
      start();
    },
    async close() {
      closing = true;
      if (timer) clearTimeout(timer);
      if (!current) return;
      const { child, client } = current;
      const ended = once(child, 'exit');
      client.close();
      const force = setTimeout(() => child.kill('SIGKILL'), CLOSE_MS);
      await ended;
      clearTimeout(force);
    },
  };
}

function connectChild(child: ChildProcess) {
  return connect(processTransport(child), CHILD_METHODS, engineEvent, false);
}

function listen<Listener>(all: Set<Listener>, listener: Listener): Unsubscribe {
  all.add(listener);
  return () => void all.delete(listener);
}
