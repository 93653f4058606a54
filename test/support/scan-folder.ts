import { createHash } from 'node:crypto';
import { mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { makeJpegScan } from './make-scan.ts';

/** A folder of small scans, each of its own content. */
export async function makeScanFolder(folder: string, names: readonly string[]): Promise<void> {
  mkdirSync(folder, { recursive: true });
  for (const [at, name] of names.entries()) {
    // Each a little wider than the last, so that no two are the same file.
    writeFileSync(join(folder, name), await makeJpegScan(240 + at, 160));
  }
}

/** The checksum of every file below a folder, by path. */
export function checksums(folder: string): Map<string, string> {
  const found = new Map<string, string>();
  for (const name of readdirSync(folder, { recursive: true, encoding: 'utf8' }).sort()) {
    const path = join(folder, name);
    if (!statSync(path, { throwIfNoEntry: false })?.isFile()) continue;
    found.set(name, createHash('sha256').update(readFileSync(path)).digest('hex'));
  }
  return found;
}
