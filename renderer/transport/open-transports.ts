import type { Transport } from '../../shared/api/wire.ts';
import { findDesktopBridge } from './desktop-bridge.ts';
import { browserSocketTransport } from './web-socket.ts';

/** The two ways out of the window: to the archive's engine and to the shell around it. */
export interface Transports {
  readonly engine: Transport;
  readonly host: Transport;
}

/** The desktop shell's bridge where there is one, else WebSockets to the address the page came from. */
export function openTransports(): Transports {
  const bridge = findDesktopBridge();
  if (bridge) return bridge;
  const origin = window.location.origin.replace(/^http/, 'ws');
  return {
    engine: browserSocketTransport(new WebSocket(`${origin}/wire/engine`)),
    host: browserSocketTransport(new WebSocket(`${origin}/wire/host`)),
  };
}
