import { useSyncExternalStore } from 'react';

/** A value that components can follow. */
export interface Store<Value> {
  get(): Value;
  set(value: Value): void;
  subscribe(listener: () => void): () => void;
}

/** A store that starts with `initial`; setting an identical value tells nobody. */
export function createStore<Value>(initial: Value): Store<Value> {
  const listeners = new Set<() => void>();
  let value = initial;
  return {
    get: () => value,
    set(next) {
      if (Object.is(next, value)) return;
      value = next;
      for (const listener of listeners) listener();
    },
    subscribe(listener) {
      listeners.add(listener);
      return () => void listeners.delete(listener);
    },
  };
}

/** The value of a store, followed by the component that asks. */
export function useStore<Value>(store: Pick<Store<Value>, 'get' | 'subscribe'>): Value {
  return useSyncExternalStore(store.subscribe, store.get);
}
