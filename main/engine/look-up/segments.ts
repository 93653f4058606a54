import {
  closeSync,
  fsyncSync,
  ftruncateSync,
  mkdirSync,
  openSync,
  readdirSync,
  readSync,
  statSync,
  unlinkSync,
  writeSync,
} from 'node:fs';
import { join } from 'node:path';
import { crc32 } from 'node:zlib';

/** Where an entry lies: the number of its segment, and the byte its content starts at. */
export interface EntryPlace {
  readonly segment: number;
  readonly offset: number;
  readonly length: number;
}

/** Entries in files that only grow. An entry is written whole or, after a crash, cut off when opened. */
export interface SegmentLog {
  /** Hands over every whole entry, oldest first. */
  readonly readAll: (take: (content: Uint8Array, place: EntryPlace) => void) => void;
  /** Appends an entry; it is safe on disk after `flush`. */
  readonly append: (content: Uint8Array) => EntryPlace;
  /** The content of an entry, also of one that has not been flushed; null where the disk no longer holds it whole. */
  readonly read: (place: EntryPlace) => Uint8Array | null;
  readonly flush: () => void;
  readonly close: () => void;
}

/** "EPLS": an Edgeprint look-up segment. */
const MAGIC = 0x534c5045;
const FORMAT = 1;
const FILE_HEAD_BYTES = 16;
const ENTRY_HEAD_BYTES = 8;
const LARGEST_ENTRY_BYTES = 1 << 20;
const SEGMENT_BYTES = 64 * 1024 * 1024;
const BUFFER_BYTES = 1024 * 1024;
const NAME = /^segment-(\d{6})\.look$/;

/**
 * Opens the segments in `folder` (made if missing). Files of another format or another codebook are deleted: the
 * log is a cache and is filled again.
 */
export function openSegments(folder: string, codebookVersion: number): SegmentLog {
  mkdirSync(folder, { recursive: true });
  const files = new Map<number, { readonly descriptor: number; size: number }>();
  let pending: Uint8Array[] = [];
  let pendingBytes = 0;

  const pathOf = (segment: number) => join(folder, `segment-${String(segment).padStart(6, '0')}.look`);

  for (const name of readdirSync(folder).sort()) {
    const number = NAME.exec(name)?.[1];
    if (number === undefined) continue;
    const path = join(folder, name);
    const descriptor = openSync(path, 'r+');
    const head = Buffer.alloc(FILE_HEAD_BYTES);
    readSync(descriptor, head, 0, FILE_HEAD_BYTES, 0);
    if (head.equals(fileHead(codebookVersion))) {
      files.set(Number(number), { descriptor, size: statSync(path).size });
    } else {
      closeSync(descriptor);
      unlinkSync(path);
    }
  }

  function last(): number {
    return Math.max(0, ...files.keys());
  }

  function startSegment(): number {
    const segment = last() + 1;
    const descriptor = openSync(pathOf(segment), 'wx+');
    writeSync(descriptor, fileHead(codebookVersion), 0, FILE_HEAD_BYTES, 0);
    files.set(segment, { descriptor, size: FILE_HEAD_BYTES });
    return segment;
  }

  function writePending(): void {
    const file = files.get(last());
    if (file === undefined || pendingBytes === 0) return;
    const bytes = Buffer.concat(pending);
    // `size` already counts what is pending.
    let at = file.size - pendingBytes;
    for (let done = 0; done < bytes.length;) {
      const written = writeSync(file.descriptor, bytes, done, bytes.length - done, at);
      done += written;
      at += written;
    }
    pending = [];
    pendingBytes = 0;
  }

  return {
    readAll(take) {
      for (const [segment, file] of [...files].sort(([a], [b]) => a - b)) {
        const whole = readEntries(file.descriptor, file.size, (content, offset) => {
          take(content, { segment, offset, length: content.length });
        });
        if (whole < file.size) ftruncateSync(file.descriptor, whole);
        file.size = whole;
      }
    },
    append(content) {
      let segment = last();
      if ((files.get(segment)?.size ?? SEGMENT_BYTES) >= SEGMENT_BYTES) {
        this.flush();
        segment = startSegment();
      }
      const file = files.get(segment);
      if (file === undefined) throw new Error(`segment ${segment} is not open`);
      const head = Buffer.alloc(ENTRY_HEAD_BYTES);
      head.writeUInt32LE(content.length, 0);
      head.writeUInt32LE(crc32(content), 4);
      pending.push(head, content);
      pendingBytes += ENTRY_HEAD_BYTES + content.length;
      const offset = file.size + ENTRY_HEAD_BYTES;
      file.size = offset + content.length;
      if (pendingBytes >= BUFFER_BYTES) writePending();
      return { segment, offset, length: content.length };
    },
    read({ segment, offset, length }) {
      const file = files.get(segment);
      if (file === undefined) return null;
      if (segment === last() && offset + length > file.size - pendingBytes) writePending();
      const bytes = Buffer.alloc(ENTRY_HEAD_BYTES + length);
      const got = readSync(file.descriptor, bytes, 0, bytes.length, offset - ENTRY_HEAD_BYTES);
      const content = bytes.subarray(ENTRY_HEAD_BYTES);
      if (got !== bytes.length || bytes.readUInt32LE(4) !== crc32(content)) return null;
      return content;
    },
    flush() {
      writePending();
      const file = files.get(last());
      if (file !== undefined) fsyncSync(file.descriptor);
    },
    close() {
      this.flush();
      for (const { descriptor } of files.values()) closeSync(descriptor);
      files.clear();
    },
  };
}

function fileHead(codebookVersion: number): Buffer {
  const head = Buffer.alloc(FILE_HEAD_BYTES);
  head.writeUInt32LE(MAGIC, 0);
  head.writeUInt32LE(FORMAT, 4);
  head.writeUInt32LE(codebookVersion, 8);
  return head;
}

/** Reads whole entries from the start; answers where the last of them ends. */
function readEntries(
  descriptor: number,
  size: number,
  take: (content: Uint8Array, offset: number) => void,
): number {
  let at = FILE_HEAD_BYTES;
  let chunk = Buffer.alloc(0);
  let chunkAt = at;
  const need = (bytes: number): boolean => {
    if (at + bytes > size) return false;
    if (at + bytes > chunkAt + chunk.length) {
      chunk = Buffer.alloc(Math.max(bytes, Math.min(4 * BUFFER_BYTES, size - at)));
      chunkAt = at;
      if (readSync(descriptor, chunk, 0, chunk.length, at) < bytes) return false;
    }
    return true;
  };
  for (;;) {
    if (!need(ENTRY_HEAD_BYTES)) return at;
    const length = chunk.readUInt32LE(at - chunkAt);
    if (length === 0 || length > LARGEST_ENTRY_BYTES || !need(ENTRY_HEAD_BYTES + length)) return at;
    const from = at - chunkAt;
    const content = chunk.subarray(from + ENTRY_HEAD_BYTES, from + ENTRY_HEAD_BYTES + length);
    if (chunk.readUInt32LE(from + 4) !== crc32(content)) return at;
    take(content, at + ENTRY_HEAD_BYTES);
    at += ENTRY_HEAD_BYTES + length;
  }
}
