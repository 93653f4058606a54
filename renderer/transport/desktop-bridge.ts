import type { Transport } from '../../shared/api/wire.ts';

/** One door of the desktop shell's preload: JSON text in and out. */
interface Door {
  send(text: string): void;
  onText(listener: (text: string) => void): void;
}

/** The transports through the bridge that the desktop shell put on the window; null in a browser. */
export function findDesktopBridge(): { readonly engine: Transport; readonly host: Transport } | null {
  const bridge: unknown = Reflect.get(window, 'edgeprint');
  if (!isBridge(bridge)) return null;
  return { engine: doorTransport(bridge.engine), host: doorTransport(bridge.host) };
}

/** A door lives as long as its page, so it never closes before. */
function doorTransport(door: Door): Transport {
  const listeners = new Set<(message: unknown) => void>();
  door.onText((text) => {
    const message: unknown = JSON.parse(text);
    for (const listener of listeners) listener(message);
  });
  return {
    send: (message) => door.send(JSON.stringify(message)),
    onMessage(listener) {
      listeners.add(listener);
      return () => void listeners.delete(listener);
    },
    onClose: () => () => {},
    close: () => listeners.clear(),
  };
}

function isBridge(value: unknown): value is { engine: Door; host: Door } {
  return typeof value === 'object' && value !== null && 'engine' in value && 'host' in value;
}
