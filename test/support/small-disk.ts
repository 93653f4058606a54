import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmdirSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';

function mount(sizeBytes: number): string | null {
  if (process.platform !== 'linux' || process.getuid?.() !== 0) return null;
  const folder = mkdtempSync(join(tmpdir(), 'edgeprint-disk-'));
  try {
    execFileSync('mount', ['-t', 'tmpfs', '-o', `size=${sizeBytes}`, 'tmpfs', folder], { stdio: 'ignore' });
    return folder;
  } catch {
    // Containers often may not mount: then there is no small disk to be had.
    rmdirSync(folder);
    return null;
  }
}

function unmount(folder: string): void {
  execFileSync('umount', ['-l', folder]);
  rmdirSync(folder);
}

/** Whether a small disk can be made here: only the administrator of a Linux machine can. */
export function canMakeSmallDisk(): boolean {
  const folder = mount(1 << 20);
  if (folder === null) {
    process.stdout.write('full disks are not tried: no small disk can be made here\n');
    return false;
  }
  unmount(folder);
  return true;
}

/** A disk of its own for one test, of `sizeBytes`, removed afterwards. */
export function makeSmallDisk(sizeBytes: number): string {
  const folder = mount(sizeBytes);
  if (folder === null) throw new Error('No small disk can be made here');
  onTestFinished(() => unmount(folder));
  return folder;
}
