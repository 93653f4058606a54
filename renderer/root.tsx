import { QueryClientProvider } from '@tanstack/react-query';
import type { ReactElement } from 'react';
import { ClientsProvider } from './api/clients-context.tsx';
import { connectClients } from './api/connect.ts';
import { createQueryCache, followChanges } from './api/query-cache.ts';
import { App } from './app.tsx';
import { AppearanceProvider, createAppearance } from './state/appearance.tsx';
import { followEngine } from './state/engine-state.ts';
import { createNotices, NoticesProvider } from './state/notices.tsx';
import { createViewState, ViewStateProvider } from './state/view-state.tsx';
import type { Transports } from './transport/open-transports.ts';
import { VIEWS } from './views.ts';

/** The whole window, ready to be shown, and what ends all that it lives on. */
export interface WindowRoot {
  readonly element: ReactElement;
  close(): void;
}

/** Makes everything a window lives on, once: clients, cache, address, notices. */
export function createWindowRoot(transports: Transports, page: Window, checkOutputs: boolean): WindowRoot {
  const clients = connectClients(transports, checkOutputs);
  const cache = createQueryCache();
  const unfollow = followChanges(cache, clients.engine);
  const engineState = followEngine(clients, () => void cache.invalidateQueries());
  const viewState = createViewState(page, { view: VIEWS[0]?.name ?? '' });
  const appearance = createAppearance(page);
  const notices = createNotices();
  return {
    element: (
      <QueryClientProvider client={cache}>
        <ClientsProvider clients={clients}>
          <AppearanceProvider appearance={appearance}>
            <NoticesProvider notices={notices}>
              <ViewStateProvider state={viewState}>
                <App engineState={engineState} />
              </ViewStateProvider>
            </NoticesProvider>
          </AppearanceProvider>
        </ClientsProvider>
      </QueryClientProvider>
    ),
    close() {
      unfollow();
      viewState.close();
      cache.clear();
      clients.engine.close();
      clients.host.close();
    },
  };
}
