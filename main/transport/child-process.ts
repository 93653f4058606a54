import type { Serializable } from 'node:child_process';
import type { EventEmitter } from 'node:events';
import type { Transport } from '../../shared/api/wire.ts';

/** What a parent's `ChildProcess` and a child's own `process` have alike. */
interface ProcessEnd extends EventEmitter {
  readonly connected: boolean;
  send?(message: Serializable, sendHandle?: undefined, options?: object, done?: () => void): boolean;
  disconnect?(): void;
}

/** Messages over the channel that Node opens between a process and its child. Both ends use this. */
export function processTransport(end: ProcessEnd): Transport {
  return {
    send(message) {
      // An end that has just gone is told by `disconnect`; the failed message needs no second report.
      if (end.connected && isSerializable(message)) end.send?.(message, undefined, {}, () => {});
    },
    onMessage(listener) {
      end.on('message', listener);
      return () => void end.off('message', listener);
    },
    onClose(listener) {
      end.on('disconnect', listener);
      return () => void end.off('disconnect', listener);
    },
    close() {
      if (end.connected) end.disconnect?.();
    },
  };
}

function isSerializable(message: unknown): message is Serializable {
  return message !== null && ['object', 'string', 'number', 'boolean'].includes(typeof message);
}
