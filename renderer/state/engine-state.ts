import type { Clients } from '../api/connect.ts';
import { createStore, type Store } from './store.ts';

/** How the engine is: running; failed, and being started again by the shell; or out of reach with its host. */
export type EngineState =
  | { readonly kind: 'running' }
  | { readonly kind: 'failed'; readonly reference: string }
  | { readonly kind: 'gone' };

/** Follows how the engine is. `onBack` is told when one that had failed runs again. */
export function followEngine(
  clients: Clients,
  onBack: () => void,
): Pick<Store<EngineState>, 'get' | 'subscribe'> {
  const state = createStore<EngineState>({ kind: 'running' });
  clients.engine.onEngineFailed((error) => state.set({ kind: 'failed', reference: referenceOf(error) }));
  clients.engine.onClose(() => state.set({ kind: 'gone' }));
  clients.host.onEvent((event) => {
    if (event.type !== 'engine' || event.state !== 'running' || state.get().kind !== 'failed') return;
    state.set({ kind: 'running' });
    onBack();
  });
  return state;
}

function referenceOf(error: Error): string {
  const details: unknown = Reflect.get(error, 'details');
  return typeof details === 'object' && details !== null
    ? String(Reflect.get(details, 'reference') ?? '')
    : '';
}
