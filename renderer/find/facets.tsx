import type { Facet } from '../../shared/api/methods/search-methods.ts';

export interface FacetsProps {
  readonly facets: readonly Facet[];
  readonly query: string;
  /** Asks for one more thing. */
  readonly onTerm: (term: string) => void;
}

const TITLES: Readonly<Record<Facet['facet'], string>> = {
  stock: 'Stock',
  camera: 'Camera',
  year: 'Year',
  state: 'State of the roll',
  process: 'Process',
  format: 'Film format',
  tag: 'Tag',
  place: 'Place',
  outing: 'Outing',
};

/** Values shown of each. Our choice, so that five of them go into the window. */
const SHOWN = 5;

/** What the frames found have in common, with how many of them; each narrows the search by itself. */
export function Facets({ facets, query, onTerm }: FacetsProps) {
  const shown = facets.filter(({ values }) => values.length > 0);
  return (
    <nav className="facets" aria-label="Narrow the search">
      {shown.map(({ facet, values, more }) => (
        <section key={facet} aria-label={TITLES[facet]}>
          <h2>{TITLES[facet]}</h2>
          <ul>
            {values.slice(0, SHOWN).map(({ label, frames, term }) => {
              const asked = query.includes(term);
              return (
                <li key={term}>
                  <button
                    type="button"
                    className="facet"
                    aria-pressed={asked}
                    onClick={() => {
                      if (!asked) onTerm(term);
                    }}
                  >
                    <span className="facet-label">{label}</span>
                    <span className="numbers facet-count">{frames}</span>
                  </button>
                </li>
              );
            })}
          </ul>
          {values.length > SHOWN || more > 0 ? (
            <p className="facet-more">and {Math.max(0, values.length - SHOWN) + more} more</p>
          ) : null}
        </section>
      ))}
    </nav>
  );
}
