import { CONTRACT, type Contract } from '../../shared/api/contract.ts';
import { engineEvent, type EngineEvent } from '../../shared/api/events.ts';
import { HOST_METHODS, hostEvent, type HostEvent } from '../../shared/api/host-contract.ts';
import { connect, type Client } from '../../shared/api/rpc.ts';
import type { Transports } from '../transport/open-transports.ts';

export type EngineClient = Client<Contract, EngineEvent>;
export type HostClient = Client<typeof HOST_METHODS, HostEvent>;

/** What the window can ask: the archive and the shell. */
export interface Clients {
  readonly engine: EngineClient;
  readonly host: HostClient;
}

/** Clients of both contracts over the transports. `checkOutputs` is for development and tests. */
export function connectClients(transports: Transports, checkOutputs: boolean): Clients {
  return {
    engine: connect(transports.engine, CONTRACT, engineEvent, checkOutputs),
    host: connect(transports.host, HOST_METHODS, hostEvent, checkOutputs),
  };
}
