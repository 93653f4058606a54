import { appendFileSync, existsSync, mkdirSync, mkdtempSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { randomBytes } from 'node:crypto';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { appError } from '../../shared/api/errors.ts';

/** Bytes of a picture that is handed in to be looked for. Our choice: a 60 MP scan as TIFF of 8 bits, and room. */
export const PICTURE_LIMIT_BYTES = 256 * 1024 * 1024;

/** A file of the host's own, known to the window by id. */
export interface MadeFile {
  readonly fileId: string;
  readonly path: string;
  /** Where the window can fetch it, from its own origin. */
  readonly address: string;
}

/** Files that live as long as the host: sheets made for printing or download, pictures handed in. */
export interface MadeFiles {
  reserve(name: string): MadeFile;
  /** The path of a reserved file that has been written; null for anything else. */
  find(fileId: string): string | null;
  /** The address of a reserved file from the window's origin. */
  addressOf(fileId: string): string;
  /**
   * Takes in a picture from the window: a first piece, or another of one begun before.
   * @throws {AppError} message_too_large when it grows above the limit, and nothing of it is kept; file_missing when
   * no picture of that id was begun; file_not_written when the disk refuses it.
   */
  receive(name: string, fileId: string | null, piece: Uint8Array): MadeFile;
  close(): void;
}

const MADE_PATH = /^\/made\/([0-9a-f]{32})\/[^/]+$/;

/** The id of the made file that a path asks for, or null. */
export function parseMadePath(path: string): string | null {
  return MADE_PATH.exec(path)?.[1] ?? null;
}

/** Keeps made files in a fresh folder of the system's temporary place, removed by `close`. */
export function createMadeFiles(limitBytes = PICTURE_LIMIT_BYTES): MadeFiles {
  const folder = mkdtempSync(join(tmpdir(), 'edgeprint-'));
  const paths = new Map<string, string>();

  function addressOf(fileId: string): string {
    return `/made/${fileId}/${encodeURIComponent(basename(paths.get(fileId) ?? fileId))}`;
  }

  function reserve(name: string): MadeFile {
    const fileId = randomBytes(16).toString('hex');
    mkdirSync(join(folder, fileId));
    const path = join(folder, fileId, safeName(name));
    paths.set(fileId, path);
    return { fileId, path, address: addressOf(fileId) };
  }

  function begun(fileId: string): MadeFile {
    const path = paths.get(fileId);
    if (path === undefined || !existsSync(path)) throw appError('file_missing', { path: fileId });
    return { fileId, path, address: addressOf(fileId) };
  }

  return {
    reserve,
    addressOf,
    find(fileId) {
      const path = paths.get(fileId);
      return path !== undefined && existsSync(path) ? path : null;
    },
    receive(name, fileId, piece) {
      const made = fileId === null ? reserve(name) : begun(fileId);
      const bytes = (fileId === null ? 0 : statSync(made.path).size) + piece.length;
      if (bytes > limitBytes) {
        paths.delete(made.fileId);
        rmSync(join(folder, made.fileId), { recursive: true, force: true });
        throw appError('message_too_large', { bytes, limit: limitBytes });
      }
      write(made.path, piece, fileId === null);
      return made;
    },
    close() {
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

function write(path: string, piece: Uint8Array, first: boolean): void {
  try {
    if (first) writeFileSync(path, piece, { flag: 'wx' });
    else appendFileSync(path, piece);
  } catch (error) {
    throw appError('file_not_written', { path, reason: error instanceof Error ? error.message : '' }, error);
  }
}

/** A file name without a folder in it: what is left of the last stroke, with odd characters replaced. */
export function safeName(name: string): string {
  const last = name.split(/[/\\]/).at(-1) ?? '';
  const plain = last
    .replaceAll(/[\p{Cc}<>:"|?*]/gu, '_')
    .replace(/^[.\s]+/, '')
    .slice(-120)
    .trim();
  return plain === '' ? 'file' : plain;
}
