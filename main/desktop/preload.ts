import { contextBridge, ipcRenderer, type IpcRendererEvent } from 'electron';

// All that the page gets of the shell: two doors for JSON text, and no way to name any other channel.

function door(name: 'engine' | 'host') {
  const channel = `wire:${name}`;
  return {
    send: (text: string) => ipcRenderer.send(channel, text),
    onText: (listener: (text: string) => void) => {
      ipcRenderer.on(channel, (_event: IpcRendererEvent, text: string) => listener(text));
    },
  };
}

contextBridge.exposeInMainWorld('edgeprint', { engine: door('engine'), host: door('host') });
