import { QueryClientProvider } from '@tanstack/react-query';
import { cleanup, configure, render } from '@testing-library/react';
import { fork, type ChildProcess } from 'node:child_process';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, onTestFinished } from 'vitest';
import { processTransport } from '../../../main/transport/child-process.ts';
import { ClientsProvider } from '../../../renderer/api/clients-context.tsx';
import { connectClients } from '../../../renderer/api/connect.ts';
import { createQueryCache, followChanges } from '../../../renderer/api/query-cache.ts';
import { BindersView } from '../../../renderer/binders/binders-view.tsx';
import { createNotices, NoticesProvider, useNoticeList } from '../../../renderer/state/notices.tsx';
import { createViewState, useRoute, ViewStateProvider } from '../../../renderer/state/view-state.tsx';
import { makeLoopback } from '../../support/loopback.ts';
import type { TestArchive } from '../../support/make-archive.ts';
import { giveLayout } from '../../support/page-layout.ts';
import { tempFolder } from '../../support/temp-folder.ts';

/** What a test can ask of the archive. */
export type Archive = Pick<TestArchive, 'ask'>;

// A path and not an address: the addresses of a page in jsdom are not those of Node.
const ENGINE = join(dirname(fileURLToPath(import.meta.url)), '../../../main/engine-entry.ts');

/** jsdom lays nothing out, so nothing is ever told of a size; what asks for one gets that of the window, once. */
class FixedObserver {
  readonly tell: ResizeObserverCallback;

  constructor(tell: ResizeObserverCallback) {
    this.tell = tell;
  }
  observe(target: Element): void {
    const contentRect = new DOMRectReadOnly(0, 0, 1440, 900);
    const size = [{ blockSize: 900, inlineSize: 1440 }];
    this.tell(
      [{ target, contentRect, borderBoxSize: size, contentBoxSize: size, devicePixelContentBoxSize: size }],
      this,
    );
  }
  unobserve(): void {}
  disconnect(): void {}
}

class FixedRect {
  readonly width: number;
  readonly height: number;

  constructor(_x: number, _y: number, width: number, height: number) {
    this.width = width;
    this.height = height;
  }
}

function View() {
  const route = useRoute();
  const notices = useNoticeList();
  return (
    <>
      {notices.map(({ key, title, detail }) => (
        <p key={key} role="status">
          {title} {detail}
        </p>
      ))}
      <BindersView route={route} />
    </>
  );
}

// The engine answers from another process, on a machine that may be busy.
configure({ asyncUtilTimeout: 10_000 });

/** A channel to an engine in a process of its own, for all tests of a file: jsdom and the engine do not share one. */
let engine: ChildProcess | null = null;

afterAll(() => void engine?.disconnect());

function startEngine(): ChildProcess {
  // One that has ended is not asked again: its channel would never answer.
  if (engine?.connected !== true) engine = fork(ENGINE, { execArgv: [], serialization: 'advanced' });
  engine.setMaxListeners(0);
  return engine;
}

/** The Binders view on a real engine with an empty archive of its own, over a channel as in the desktop window. */
export async function showBinders(
  prepare: (archive: Archive) => Promise<void>,
  hash = '#/binders',
): Promise<Archive> {
  giveLayout({ width: 1440, height: 900 });
  Object.assign(globalThis, { ResizeObserver: FixedObserver, DOMRectReadOnly: FixedRect });
  const [host] = makeLoopback();
  const clients = connectClients({ engine: processTransport(startEngine()), host }, true);
  const archive: Archive = { ask: (name, input) => clients.engine.call(name, input) };
  const folder = join(tempFolder(), 'archive');
  await archive.ask('archive.create', { folder });
  await prepare(archive);

  window.location.hash = hash;
  const cache = createQueryCache();
  const unfollow = followChanges(cache, clients.engine);
  const viewState = createViewState(window, { view: 'binders' });
  onTestFinished(async () => {
    cleanup();
    unfollow();
    viewState.close();
    cache.clear();
    await archive.ask('archive.close', {});
  });
  render(
    <QueryClientProvider client={cache}>
      <ClientsProvider clients={clients}>
        <NoticesProvider notices={createNotices()}>
          <ViewStateProvider state={viewState}>
            <View />
          </ViewStateProvider>
        </NoticesProvider>
      </ClientsProvider>
    </QueryClientProvider>,
  );
  return archive;
}

/** A developed roll of 135 film with frames 1 to `frames`. */
export async function addRoll({ ask }: Archive, number: string, frames: number): Promise<number> {
  const { id } = await ask('rolls.add', {
    number,
    title: `Roll of ${frames}`,
    filmFormat: '135',
    frameFormat: '24x36',
    exposures: frames,
    state: 'developed',
  });
  const labels = Array.from({ length: frames }, (_, index) => String(index + 1));
  await ask('frames.add', { rollId: id, labels });
  return id;
}
