import { createHash, hash } from 'node:crypto';
import { open, type FileHandle } from 'node:fs/promises';
import { appError } from '../../../shared/api/errors.ts';
import { translateFileError } from '../files/file-error.ts';
import { readFully, sourceFromBuffer, sourceFromHandle, type ByteSource } from './byte-source.ts';

/** A scan file while it is being read. */
export interface OpenScan {
  readonly path: string;
  readonly sizeBytes: number;
  /** Hexadecimal, of the whole file. */
  readonly sha256: string;
  readonly source: ByteSource;
  /** What the image library is given: the bytes of a small file, the path of a large one. */
  readonly input: Buffer | string;
  /**
   * The whole file in memory, a copy of its own, with `roomBytes` of zeros behind it.
   * @throws {AppError} scan_unreadable above 1 GiB.
   */
  whole(roomBytes: number): Promise<Buffer>;
}

/** Files up to this size are read once into memory; larger ones stay on disk. Our choice: four at a time fit 300 MiB. */
const READ_WHOLE_BYTES = 32 * 1024 * 1024;

/** The most that is taken into memory for the few layouts that need it. Our choice. */
const LARGEST_IN_MEMORY_BYTES = 1024 * 1024 * 1024;

const PIECE_BYTES = 4 * 1024 * 1024;

/**
 * Opens a file for reading only, does `work` with it, and closes it whatever happens; `changed` tells whether
 * someone wrote to the file meanwhile.
 * @throws {AppError} file_missing, file_unreadable.
 */
export async function withOpenScan<Result>(
  path: string,
  work: (scan: OpenScan) => Promise<Result>,
): Promise<{ result: Result; changed: boolean }> {
  const handle = await openForReading(path);
  try {
    const before = await handle.stat({ bigint: true });
    if (!before.isFile()) throw appError('file_unreadable', { path, reason: 'it is not a file' });
    const result = await work(await readOpened(path, handle, Number(before.size)));
    const after = await handle.stat({ bigint: true });
    return { result, changed: after.size !== before.size || after.mtimeNs !== before.mtimeNs };
  } catch (error) {
    throw translateFileError(error, path, 'file');
  } finally {
    await handle.close();
  }
}

async function openForReading(path: string): Promise<FileHandle> {
  try {
    return await open(path, 'r');
  } catch (error) {
    throw translateFileError(error, path, 'file');
  }
}

async function readOpened(path: string, handle: FileHandle, sizeBytes: number): Promise<OpenScan> {
  if (sizeBytes <= READ_WHOLE_BYTES) {
    const space = Buffer.allocUnsafeSlow(sizeBytes);
    const bytes = space.subarray(0, await readFully(handle, space, 0));
    return {
      path,
      sizeBytes: bytes.length,
      sha256: hash('sha256', bytes),
      source: sourceFromBuffer(bytes),
      input: bytes,
      whole: async (roomBytes) => Buffer.concat([bytes, Buffer.alloc(roomBytes)]),
    };
  }
  return {
    path,
    sizeBytes,
    sha256: await hashInPieces(handle),
    source: sourceFromHandle(handle, sizeBytes),
    input: path,
    whole: async (roomBytes) => {
      if (sizeBytes > LARGEST_IN_MEMORY_BYTES) {
        throw appError('scan_unreadable', { path, reason: 'this layout can only be read up to 1 GiB' });
      }
      const space = Buffer.alloc(sizeBytes + roomBytes);
      await readFully(handle, space.subarray(0, sizeBytes), 0);
      return space;
    },
  };
}

async function hashInPieces(handle: FileHandle): Promise<string> {
  const sum = createHash('sha256');
  const piece = Buffer.allocUnsafeSlow(PIECE_BYTES);
  for (let offset = 0; ;) {
    const count = await readFully(handle, piece, offset);
    sum.update(piece.subarray(0, count));
    offset += count;
    if (count < piece.length) return sum.digest('hex');
  }
}
