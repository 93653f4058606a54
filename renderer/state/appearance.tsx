import { createContext, use, type ReactNode } from 'react';
import { APPEARANCES, type Appearance } from '../../shared/api/host-contract.ts';
import { createStore, useStore, type Store } from './store.ts';

const KEY = 'edgeprint.appearance';

/** The ground the window is drawn on, kept on the page and remembered on this machine. */
export function createAppearance(page: Window): Store<Appearance> {
  const store = createStore<Appearance>(parseAppearance(page.localStorage.getItem(KEY)) ?? 'dark');
  const show = () => {
    page.document.documentElement.dataset.appearance = store.get();
  };
  show();
  return {
    ...store,
    set(appearance) {
      page.localStorage.setItem(KEY, appearance);
      store.set(appearance);
      show();
    },
  };
}

function parseAppearance(text: string | null): Appearance | null {
  return APPEARANCES.find((appearance) => appearance === text) ?? null;
}

const AppearanceContext = createContext<Store<Appearance> | null>(null);

/** Gives the appearance to what is inside. */
export function AppearanceProvider({
  appearance,
  children,
}: {
  appearance: Store<Appearance>;
  children: ReactNode;
}) {
  return <AppearanceContext value={appearance}>{children}</AppearanceContext>;
}

/** The present ground, and a way to change it. */
export function useAppearance(): [Appearance, (appearance: Appearance) => void] {
  const store = use(AppearanceContext);
  if (!store) throw new Error('No appearance around this component');
  return [useStore(store), store.set];
}
