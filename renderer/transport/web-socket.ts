import type { Transport } from '../../shared/api/wire.ts';

/** Messages as JSON text over a browser's WebSocket; what is sent before it is open waits. */
export function browserSocketTransport(socket: WebSocket): Transport {
  const waiting: string[] = [];
  socket.addEventListener('open', () => {
    for (const text of waiting.splice(0)) socket.send(text);
  });
  return {
    send(message) {
      const text = JSON.stringify(message);
      if (socket.readyState === WebSocket.CONNECTING) waiting.push(text);
      else if (socket.readyState === WebSocket.OPEN) socket.send(text);
    },
    onMessage(listener) {
      const take = (event: MessageEvent<unknown>) => listener(JSON.parse(String(event.data)));
      socket.addEventListener('message', take);
      return () => socket.removeEventListener('message', take);
    },
    onClose(listener) {
      socket.addEventListener('close', listener);
      return () => socket.removeEventListener('close', listener);
    },
    close: () => socket.close(),
  };
}
