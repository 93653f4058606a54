import { createContext, use, useMemo, type AnchorHTMLAttributes, type ReactNode } from 'react';
import { formatRoute, parseRoute, type Route } from './route.ts';
import { createStore, useStore, type Store } from './store.ts';

/** Where the window is, kept in its address, so that back and forward work. Nothing from the archive is in here. */
export interface ViewState {
  readonly route: Pick<Store<Route>, 'get' | 'subscribe'>;
  go(route: GivenRoute): void;
  /** Changes the present step of the history instead of adding one: for selections and filters being typed. */
  adjust(params: Readonly<Record<string, string | null>>): void;
  close(): void;
}

/** A route whose empty parts may be left out. */
export interface GivenRoute {
  readonly view: string;
  readonly ids?: readonly (string | number)[];
  readonly params?: Readonly<Record<string, string>>;
}

/** Follows the address of `page`; `start` is where a bare address leads. */
export function createViewState(page: Window, start: GivenRoute): ViewState {
  const read = () => parseRoute(page.location.hash) ?? fillRoute(start);
  const route = createStore<Route>(read());
  const follow = () => route.set(read());
  page.addEventListener('hashchange', follow);
  page.addEventListener('popstate', follow);
  return {
    route,
    go(given) {
      page.history.pushState(null, '', formatRoute(fillRoute(given)));
      follow();
    },
    adjust(params) {
      const now = route.get();
      const merged = { ...now.params, ...params };
      const kept = Object.entries(merged).flatMap(([name, value]) =>
        value === null ? [] : [[name, value] as const],
      );
      page.history.replaceState(null, '', formatRoute({ ...now, params: Object.fromEntries(kept) }));
      follow();
    },
    close() {
      page.removeEventListener('hashchange', follow);
      page.removeEventListener('popstate', follow);
    },
  };
}

function fillRoute({ view, ids = [], params = {} }: GivenRoute): Route {
  return { view, ids: ids.map(String), params };
}

const ViewStateContext = createContext<ViewState | null>(null);

/** Gives the view state to what is inside. */
export function ViewStateProvider({ state, children }: { state: ViewState; children: ReactNode }) {
  return <ViewStateContext value={state}>{children}</ViewStateContext>;
}

/** The view state, to go somewhere or to adjust the present route. */
export function useViewState(): ViewState {
  const state = use(ViewStateContext);
  if (!state) throw new Error('No view state around this component');
  return state;
}

/** The present route. */
export function useRoute(): Route {
  return useStore(useViewState().route);
}

export interface RouteLinkProps extends Pick<
  AnchorHTMLAttributes<HTMLAnchorElement>,
  'className' | 'aria-current'
> {
  readonly to: GivenRoute;
  readonly children: ReactNode;
}

/** A link to a view; opens in a new tab where there are tabs, like any link. */
export function RouteLink({ to, children, ...rest }: RouteLinkProps) {
  const href = useMemo(() => formatRoute(fillRoute(to)), [to]);
  return (
    <a {...rest} href={href}>
      {children}
    </a>
  );
}
