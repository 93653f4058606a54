import { existsSync } from 'node:fs';
import { join } from 'node:path';

/** Where the parts of the program lie on the disk. */
export interface Places {
  readonly renderer: string;
  readonly preload: string;
  readonly engineEntry: string;
  readonly node: string;
}

/**
 * Finds the parts. In a package the engine's sources and its libraries lie beside the app's archive, unpacked, since
 * a plain Node cannot read inside it, and the Node that runs them travels as a resource.
 */
export function findPlaces(
  appPath: string,
  resourcesPath: string,
  packaged: boolean,
  platform: string,
): Places {
  const program = platform === 'win32' ? 'node.exe' : 'node';
  const dist = join(appPath, 'dist');
  const engineRoot = packaged ? join(resourcesPath, 'app.asar.unpacked') : appPath;
  const node = packaged
    ? join(resourcesPath, 'node', program)
    : join(appPath, 'node_modules', 'node', 'bin', program);
  return {
    renderer: join(dist, 'renderer'),
    preload: join(dist, 'desktop', 'preload.cjs'),
    engineEntry: join(engineRoot, 'main', 'engine-entry.ts'),
    node: existsSync(node) ? node : program,
  };
}
