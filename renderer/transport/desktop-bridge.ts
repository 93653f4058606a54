import type { Transport } from '../../shared/api/wire.ts';

/** The two doors of the desktop shell's preload: the archive's engine and the shell itself. */
export interface DesktopBridge {
  readonly engine: Transport;
  readonly host: Transport;
}

/** The bridge that the desktop shell put on the window; null in a browser. */
export function findDesktopBridge(): DesktopBridge | null {
  const bridge: unknown = Reflect.get(window, 'edgeprint');
  return isBridge(bridge) ? bridge : null;
}

function isBridge(value: unknown): value is DesktopBridge {
  return typeof value === 'object' && value !== null && 'engine' in value && 'host' in value;
}
