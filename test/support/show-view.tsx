import { QueryClientProvider } from '@tanstack/react-query';
import { cleanup, configure, render } from '@testing-library/react';
import { fork, type ChildProcess } from 'node:child_process';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { ComponentType } from 'react';
import { afterAll, onTestFinished } from 'vitest';
import type { Transport } from '../../shared/api/wire.ts';
import { processTransport } from '../../main/transport/child-process.ts';
import { ClientsProvider } from '../../renderer/api/clients-context.tsx';
import { connectClients } from '../../renderer/api/connect.ts';
import { createQueryCache, followChanges } from '../../renderer/api/query-cache.ts';
import { createNotices, NoticesProvider, useNoticeList } from '../../renderer/state/notices.tsx';
import type { Route } from '../../renderer/state/route.ts';
import { createViewState, useRoute, ViewStateProvider } from '../../renderer/state/view-state.tsx';
import { makeLoopback } from './loopback.ts';
import type { TestArchive } from './make-archive.ts';
import { giveLayout } from './page-layout.ts';
import { tempFolder } from './temp-folder.ts';

/** A view on a real archive, and what its window has asked of the engine. */
export interface ShownView extends Pick<TestArchive, 'ask'> {
  /** The calls the window made so far of a method, oldest first, by their inputs. */
  readonly callsOf: (method: string) => readonly unknown[];
}

// A path and not an address: the addresses of a page in jsdom are not those of Node.
const ENGINE = join(dirname(fileURLToPath(import.meta.url)), '../../main/engine-entry.ts');

// The engine answers from another process, on a machine that may be busy. Whether an element can be reached is not
// worked out for every query: in a page of many frames that takes seconds, and axe looks at it as a whole.
configure({ asyncUtilTimeout: 10_000, defaultHidden: true });

let engine: ChildProcess | null = null;
afterAll(() => void engine?.disconnect());

/** An engine in a process of its own, one for all tests of a file: jsdom and the engine do not share one. */
function startEngine(): ChildProcess {
  engine ??= fork(ENGINE, { execArgv: [], serialization: 'advanced' });
  engine.setMaxListeners(0);
  return engine;
}

/** The transport, with everything that is sent over it written down. */
function writtenDown(transport: Transport, sent: unknown[]): Transport {
  return {
    ...transport,
    send(message) {
      sent.push(message);
      transport.send(message);
    },
  };
}

function callsIn(sent: readonly unknown[], method: string): readonly unknown[] {
  return sent.flatMap((message) =>
    typeof message === 'object' && message !== null && Reflect.get(message, 'method') === method
      ? [Reflect.get(message, 'input')]
      : [],
  );
}

/** A view on a real engine with an archive of its own, filled by `prepare`, over a channel as in the desktop window. */
export async function showView(
  component: ComponentType<{ readonly route: Route }>,
  prepare: (archive: Pick<TestArchive, 'ask'>) => Promise<string>,
): Promise<ShownView> {
  giveLayout({ width: 1440, height: 900 });
  const [host] = makeLoopback();
  const sent: unknown[] = [];
  const transport = writtenDown(processTransport(startEngine()), sent);
  const clients = connectClients({ engine: transport, host }, true);
  const ask: TestArchive['ask'] = (name, input) => clients.engine.call(name, input);
  await ask('archive.create', { folder: join(tempFolder(), 'archive') });
  window.location.hash = await prepare({ ask });
  sent.length = 0;

  const cache = createQueryCache();
  const unfollow = followChanges(cache, clients.engine);
  const viewState = createViewState(window, { view: 'rolls' });
  onTestFinished(async () => {
    cleanup();
    unfollow();
    viewState.close();
    cache.clear();
    await ask('archive.close', {});
  });
  const View = component;
  function Shown() {
    const route = useRoute();
    const notices = useNoticeList();
    return (
      <>
        {notices.map(({ key, title, detail }) => (
          <p key={key} role="status">
            {title} {detail}
          </p>
        ))}
        <main>
          <View route={route} />
        </main>
      </>
    );
  }
  render(
    <QueryClientProvider client={cache}>
      <ClientsProvider clients={clients}>
        <NoticesProvider notices={createNotices()}>
          <ViewStateProvider state={viewState}>
            <Shown />
          </ViewStateProvider>
        </NoticesProvider>
      </ClientsProvider>
    </QueryClientProvider>,
  );
  return { ask, callsOf: (method) => callsIn(sent, method) };
}
