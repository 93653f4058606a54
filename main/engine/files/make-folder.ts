import { existsSync, mkdirSync } from 'node:fs';
import { dirname } from 'node:path';

/**
 * Makes a folder and those above it that are missing, one by one. Node's own recursive way never ends where the system
 * answers "not there" for a parent that is there (seen under /proc with Node 24).
 */
export function makeFolder(path: string): void {
  if (existsSync(path)) return;
  const above = dirname(path);
  if (above !== path) makeFolder(above);
  mkdirSync(path);
}
