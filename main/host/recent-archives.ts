import { existsSync, mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { CONTRACT } from '../../shared/api/contract.ts';
import { isAppError } from '../../shared/api/errors.ts';
import { engineEvent } from '../../shared/api/events.ts';
import type { RecentArchive } from '../../shared/api/host-contract.ts';
import type { Service } from '../../shared/api/rpc.ts';
import type { Unsubscribe } from '../../shared/api/wire.ts';

/** How many are kept. Our choice: what fits on a first view without scrolling. */
const KEPT = 12;

/** The archives that were open before, newest first. */
export interface RecentArchives {
  list(): RecentArchive[];
  remember(archive: { folder: string; name: string }, openedAt: string): void;
  forget(folder: string): void;
}

interface Entry {
  readonly folder: string;
  readonly name: string;
  readonly openedAt: string;
}

/** Keeps the list in `file`, outside any archive. A list that cannot be read counts as empty. */
export function createRecentArchives(file: string): RecentArchives {
  function read(): Entry[] {
    if (!existsSync(file)) return [];
    const parsed = parseJson(readFileSync(file, 'utf8'));
    return Array.isArray(parsed) ? parsed.filter(isEntry) : [];
  }
  function write(entries: readonly Entry[]): void {
    mkdirSync(dirname(file), { recursive: true });
    writeFileSync(`${file}.part`, JSON.stringify(entries.slice(0, KEPT), null, 2));
    renameSync(`${file}.part`, file);
  }
  return {
    list: () =>
      read().map((entry) => ({ ...entry, present: existsSync(join(entry.folder, 'archive.sqlite')) })),
    remember({ folder, name }, openedAt) {
      write([{ folder, name, openedAt }, ...read().filter((entry) => entry.folder !== folder)]);
    },
    forget(folder) {
      write(read().filter((entry) => entry.folder !== folder));
    },
  };
}

/** Remembers each archive that is opened through `engine`, from now on. */
export function followOpenArchive(
  engine: Service,
  recent: RecentArchives,
  onBug: (error: unknown, reference: string) => void,
): Unsubscribe {
  let last: string | null = null;
  async function look(): Promise<void> {
    const state = CONTRACT['archive.state'].output.parse(await engine.call('archive.state', {}));
    if (state && state.folder !== last) recent.remember(state, new Date().toISOString());
    last = state?.folder ?? null;
  }
  return engine.onEvent((event) => {
    const read = engineEvent.safeParse(event);
    if (read.data?.type !== 'changed' || !read.data.topics.includes('archive')) return;
    // The list is a convenience: failing to write it must not fail what the user did.
    look().catch((error: unknown) => {
      // An engine that has ended in between has nothing open to be remembered.
      if (!isAppError(error, 'engine_stopped')) onBug(error, 'recent-archives');
    });
  });
}

function isEntry(value: unknown): value is Entry {
  return (
    typeof value === 'object' &&
    value !== null &&
    ['folder', 'name', 'openedAt'].every((key) => typeof Reflect.get(value, key) === 'string') &&
    !Number.isNaN(Date.parse(String(Reflect.get(value, 'openedAt'))))
  );
}

function parseJson(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    // The list is a convenience: one that was damaged is begun anew.
    return null;
  }
}
