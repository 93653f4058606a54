import { RouteLink } from '../state/view-state.tsx';

const PLACES = [
  { at: 'log', title: 'Developments and baths', ids: [] },
  { at: 'processes', title: 'Processes', ids: ['processes'] },
  { at: 'sums', title: 'Sums', ids: ['sums'] },
] as const;

/** The ways between the parts of the development view. */
export function DevelopmentPlaces({ at }: { readonly at: (typeof PLACES)[number]['at'] }) {
  return (
    <nav className="development-places" aria-label="Development">
      {PLACES.map((place) => (
        <RouteLink
          key={place.at}
          to={{ view: 'development', ids: place.ids }}
          aria-current={place.at === at ? 'page' : undefined}
        >
          {place.title}
        </RouteLink>
      ))}
    </nav>
  );
}
