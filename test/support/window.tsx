import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { serve, type Service } from '../../shared/api/rpc.ts';
import { startEngineProcess } from '../../main/desktop/engine-process.ts';
import { createMadeFiles } from '../../main/host/made-files.ts';
import { createRecentArchives, followOpenArchive } from '../../main/host/recent-archives.ts';
import { createWebHostService } from '../../main/web/web-host-service.ts';
import { createWindowRoot, type WindowRoot } from '../../renderer/root.tsx';
import { makeLoopback } from './loopback.ts';

/** A real engine in a process of its own and a real host, with as many windows on them as a test wants. */
export interface WindowStage {
  readonly engine: Service;
  /** A folder of its own for archives and files; gone after `close`. */
  readonly folder: string;
  /** Another window on the same engine; `stopEngine` ends its connection as a host that goes away would. */
  openWindow(): WindowRoot & { stopEngine(): void };
  readonly bugs: readonly unknown[];
  close(): Promise<void>;
}

/** Sets up engine and host. The engine gets a process, since the page of a test is no place for a Node program. */
export function setWindowStage(): WindowStage {
  const folder = mkdtempSync(join(tmpdir(), 'edgeprint-window-'));
  const bugs: unknown[] = [];
  const engineProcess = startEngineProcess({
    nodePath: process.execPath,
    entry: join(process.cwd(), 'main', 'engine-entry.ts'),
    onFailure: (_reference, how) => void bugs.push(`The engine ${how}`),
  });
  const engine = engineProcess.service;
  const made = createMadeFiles();
  const recent = createRecentArchives(join(folder, 'recent.json'));
  const onBug = (error: unknown) => void bugs.push(error);
  const unfollow = followOpenArchive(engine, recent, onBug);
  const host = createWebHostService({
    version: '0.0.0',
    documentsFolder: folder,
    made,
    recent,
    // No print queue is asked in tests: none of this machine's is theirs.
    run: async () => ({ ok: false, out: '' }),
    quit: () => {},
  });

  function joinWindow(service: Service) {
    const [near, far] = makeLoopback();
    serve(far, service, { newReference: () => 'test', onBug });
    return { near, far };
  }

  return {
    engine,
    folder,
    bugs,
    openWindow() {
      const engineDoor = joinWindow(engine);
      const hostDoor = joinWindow(host);
      const root = createWindowRoot({ engine: engineDoor.near, host: hostDoor.near }, window, true);
      return { ...root, stopEngine: () => engineDoor.far.close() };
    },
    async close() {
      unfollow();
      await engineProcess.close();
      made.close();
      rmSync(folder, { recursive: true });
    },
  };
}
