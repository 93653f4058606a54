/** Which view is shown, of what, and how it is set: everything that back and forward should bring again. */
export interface Route {
  readonly view: string;
  /** The things it shows, from the outside in: a binder's id, a page's id. */
  readonly ids: readonly string[];
  /** Selection, filter and the like, by name. */
  readonly params: Readonly<Record<string, string>>;
}

/** The route as the part of an address after `#`: `/rolls/12?frames=3-9`. */
export function formatRoute({ view, ids, params }: Route): string {
  const path = [view, ...ids].map(encodeURIComponent).join('/');
  const query = new URLSearchParams(Object.entries(params).filter(([, value]) => value !== '')).toString();
  return query === '' ? `#/${path}` : `#/${path}?${query}`;
}

/** Reads an address part made by `formatRoute`; null when it names no view. */
export function parseRoute(hash: string): Route | null {
  const [path = '', query = ''] = hash.replace(/^#\/?/, '').split(/\?(.*)/s);
  const parts = path.split('/').map(decode);
  const [view, ...ids] = parts;
  if (view === undefined || view === null || view === '') return null;
  const named = ids.filter((id) => id !== null && id !== '');
  return {
    view,
    ids: named.flatMap((id) => id ?? []),
    params: Object.fromEntries(new URLSearchParams(query)),
  };
}

function decode(part: string): string | null {
  try {
    return decodeURIComponent(part);
  } catch {
    // An address typed by hand with broken percent signs names nothing.
    return null;
  }
}
