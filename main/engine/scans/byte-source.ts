import type { FileHandle } from 'node:fs/promises';

/** Bytes that can be read in pieces: a file, or a block of metadata within one. */
export interface ByteSource {
  readonly sizeBytes: number;
  /** `length` bytes from `offset`, fewer where the source ends before. */
  read(offset: number, length: number): Promise<Buffer>;
}

/** Bytes already in memory; pieces share that memory. */
export function sourceFromBuffer(bytes: Buffer): ByteSource {
  return {
    sizeBytes: bytes.length,
    read: async (offset, length) => bytes.subarray(Math.min(offset, bytes.length), offset + length),
  };
}

/** An open file of `sizeBytes`; the handle stays the caller's to close. */
export function sourceFromHandle(handle: FileHandle, sizeBytes: number): ByteSource {
  return {
    sizeBytes,
    read: async (offset, length) => {
      const wanted = Math.max(0, Math.min(length, sizeBytes - offset));
      const bytes = Buffer.alloc(wanted);
      return bytes.subarray(0, await readFully(handle, bytes, offset));
    },
  };
}

/** Fills `bytes` from `offset` of the file; the count read, less than the length only at the end of the file. */
export async function readFully(handle: FileHandle, bytes: Buffer, offset: number): Promise<number> {
  let filled = 0;
  while (filled < bytes.length) {
    const { bytesRead } = await handle.read(bytes, filled, bytes.length - filled, offset + filled);
    if (bytesRead === 0) break;
    filled += bytesRead;
  }
  return filled;
}
