import type { WebSocket } from 'ws';
import type { Transport } from '../../shared/api/wire.ts';

/** Close codes. Source: RFC 6455, The WebSocket Protocol, 2011, section 7.4.1. */
const UNSUPPORTED = 1003;
const INVALID_PAYLOAD = 1007;

/** Messages as JSON text over a WebSocket; an end that sends anything else is cut off. */
export function webSocketTransport(socket: WebSocket): Transport {
  const messageListeners = new Set<(message: unknown) => void>();
  // Errors of a socket (a frame too large, a broken frame) are followed by `close`, which is what counts.
  socket.on('error', () => {});
  socket.on('message', (bytes, isBinary) => {
    if (isBinary) return socket.close(UNSUPPORTED);
    const message = parseJson(bytes.toString());
    if (message === undefined) return socket.close(INVALID_PAYLOAD);
    for (const listener of messageListeners) listener(message);
  });
  return {
    send(message) {
      if (socket.readyState === socket.OPEN) socket.send(JSON.stringify(message));
    },
    onMessage(listener) {
      messageListeners.add(listener);
      return () => void messageListeners.delete(listener);
    },
    onClose(listener) {
      socket.on('close', listener);
      return () => void socket.off('close', listener);
    },
    close: () => socket.close(),
  };
}

function parseJson(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    // No JSON: the caller cuts the socket off, which is the report.
    return undefined;
  }
}
