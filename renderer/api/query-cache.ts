import { QueryClient } from '@tanstack/react-query';
import type { Topic } from '../../shared/api/method.ts';
import type { Unsubscribe } from '../../shared/api/wire.ts';
import type { EngineClient } from './connect.ts';
import { isTouched } from './topics.ts';

/**
 * While changes come thick (an import), what is shown is fetched anew this often, in milliseconds.
 * Our choice: often enough to watch, seldom enough to leave the engine its work.
 */
const GATHER_MS = 200;

/** The cache of what the engine answered. It is never stale by age: only a `changed` event makes it so. */
export function createQueryCache(): QueryClient {
  return new QueryClient({
    defaultOptions: {
      // `always`: the engine is on this machine, whether there is a network or not.
      queries: { staleTime: Infinity, retry: false, refetchOnWindowFocus: false, networkMode: 'always' },
      mutations: { retry: false, networkMode: 'always' },
    },
  });
}

/** Fetches anew whatever the engine says has changed: the first change at once, what follows gathered. */
export function followChanges(cache: QueryClient, engine: EngineClient): Unsubscribe {
  let waiting = new Set<Topic>();
  let timer: ReturnType<typeof setTimeout> | null = null;

  function flush(): void {
    const topics = [...waiting];
    waiting = new Set();
    timer = null;
    if (topics.length === 0) return;
    void cache.invalidateQueries({ predicate: ({ queryKey }) => isTouched(String(queryKey[0]), topics) });
    timer = setTimeout(flush, GATHER_MS);
  }

  const off = engine.onEvent((event) => {
    if (event.type !== 'changed') return;
    for (const topic of event.topics) waiting.add(topic);
    if (timer === null) flush();
  });
  return () => {
    off();
    if (timer !== null) clearTimeout(timer);
  };
}
