import { QueryClientProvider } from '@tanstack/react-query';
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { z } from 'zod';
import { ClientsProvider } from './api/clients-context.tsx';
import { connectClients } from './api/connect.ts';
import { createQueryCache, followChanges } from './api/query-cache.ts';
import { App } from './app.tsx';
import { AppearanceProvider, createAppearance } from './state/appearance.tsx';
import { followEngine } from './state/engine-state.ts';
import { createNotices, NoticesProvider } from './state/notices.tsx';
import { createViewState, ViewStateProvider } from './state/view-state.tsx';
import { openTransports } from './transport/open-transports.ts';
import { VIEWS } from './views.ts';
import './styles/fonts.css';
import './styles/tokens.css';
import './styles/base.css';

// The page's policy forbids code made from text, which the checker would otherwise try for speed.
z.config({ jitless: true });

/** Makes everything the window lives on, once, and shows it. It all ends with the page. */
function start(place: HTMLElement): void {
  const clients = connectClients(openTransports(), import.meta.env.DEV);
  const cache = createQueryCache();
  followChanges(cache, clients.engine);
  const engineState = followEngine(clients, () => void cache.invalidateQueries());
  const viewState = createViewState(window, { view: VIEWS[0]?.name ?? 'rolls' });
  createRoot(place).render(
    <StrictMode>
      <QueryClientProvider client={cache}>
        <ClientsProvider clients={clients}>
          <AppearanceProvider appearance={createAppearance(window)}>
            <NoticesProvider notices={createNotices()}>
              <ViewStateProvider state={viewState}>
                <App engineState={engineState} />
              </ViewStateProvider>
            </NoticesProvider>
          </AppearanceProvider>
        </ClientsProvider>
      </QueryClientProvider>
    </StrictMode>,
  );
}

const place = document.getElementById('root');
if (place) start(place);
