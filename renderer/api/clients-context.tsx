import { createContext, use, type ReactNode } from 'react';
import type { Clients } from './connect.ts';

const ClientsContext = createContext<Clients | null>(null);

/** Gives both clients to what is inside. */
export function ClientsProvider({ clients, children }: { clients: Clients; children: ReactNode }) {
  return <ClientsContext value={clients}>{children}</ClientsContext>;
}

/** The clients of the archive's engine and of the shell. */
export function useClients(): Clients {
  const clients = use(ClientsContext);
  if (!clients) throw new Error('No clients around this component');
  return clients;
}
