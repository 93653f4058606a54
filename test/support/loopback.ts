import type { Transport } from '../../shared/api/wire.ts';

/** Two joined ends in one process. Messages are copied and arrive in a later turn, as over any real channel. */
export function makeLoopback(): [Transport, Transport] {
  const left = makeEnd();
  const right = makeEnd();
  left.join(right);
  right.join(left);
  return [left.transport, right.transport];
}

function makeEnd() {
  const messageListeners = new Set<(message: unknown) => void>();
  const closeListeners = new Set<() => void>();
  let other: { take(message: unknown): void; shut(): void } | null = null;
  let open = true;

  function take(message: unknown): void {
    if (open) for (const listener of messageListeners) listener(message);
  }
  function shut(): void {
    if (!open) return;
    open = false;
    for (const listener of closeListeners) listener();
  }
  const transport: Transport = {
    send(message) {
      const text = JSON.stringify(message);
      queueMicrotask(() => other?.take(JSON.parse(text)));
    },
    onMessage(listener) {
      messageListeners.add(listener);
      return () => void messageListeners.delete(listener);
    },
    onClose(listener) {
      closeListeners.add(listener);
      return () => void closeListeners.delete(listener);
    },
    close() {
      shut();
      queueMicrotask(() => other?.shut());
    },
  };
  return {
    transport,
    take,
    shut,
    join: (end: { take(message: unknown): void; shut(): void }) => void (other = end),
  };
}
