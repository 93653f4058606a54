import { ipcMain, type IpcMainEvent, type WebContents } from 'electron';
import type { Transport } from '../../shared/api/wire.ts';

/** The two doors of a window, by the name their messages go under. */
export type DoorName = 'engine' | 'host';

/**
 * The main process's end of a window's door. Messages travel as JSON text: one string crosses the bridge between
 * the window's worlds at once, where an object would be copied piece by piece. Ends when the window goes elsewhere
 * or away.
 */
export function windowTransport(contents: WebContents, door: DoorName): Transport {
  const channel = `wire:${door}`;
  const messageListeners = new Set<(message: unknown) => void>();
  const closeListeners = new Set<() => void>();
  let open = true;

  function take(event: IpcMainEvent, text: unknown): void {
    // Only our own page in the top frame of this window is listened to.
    if (event.sender !== contents || event.senderFrame !== contents.mainFrame || typeof text !== 'string')
      return;
    const message = parseJson(text);
    for (const listener of messageListeners) listener(message);
  }
  function close(): void {
    if (!open) return;
    open = false;
    ipcMain.off(channel, take);
    for (const listener of closeListeners) listener();
  }
  ipcMain.on(channel, take);
  contents.once('destroyed', close);

  return {
    send(message) {
      if (open && !contents.isDestroyed()) contents.send(channel, JSON.stringify(message));
    },
    onMessage(listener) {
      messageListeners.add(listener);
      return () => void messageListeners.delete(listener);
    },
    onClose(listener) {
      closeListeners.add(listener);
      return () => void closeListeners.delete(listener);
    },
    close,
  };
}

function parseJson(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    // Nothing of ours: whoever reads the message refuses it.
    return null;
  }
}
