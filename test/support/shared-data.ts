import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const folder = fileURLToPath(new URL('../../../shared/data', import.meta.url));

/**
 * The folder of real test files beside the project, or null on a clone that stands alone; then a line says
 * which checks did not run.
 */
export function sharedData(part: string): string | null {
  const path = join(folder, part);
  if (existsSync(path)) return path;
  process.stdout.write(`shared/data/${part} is not here: its checks are left out\n`);
  return null;
}
