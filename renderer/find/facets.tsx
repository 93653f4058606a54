import type { Facet } from '../../shared/api/methods/search-methods.ts';

export interface FacetsProps {
  readonly facets: readonly Facet[];
  /** The terms that the search asks for by themselves. */
  readonly asked: ReadonlySet<string>;
  /** Asks for one more thing, or no more for it. */
  readonly onTerm: (term: string, on: boolean) => void;
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

/** Values shown of each before the rest is asked for. Our choice, so that most of them go into the window. */
const SHOWN = 5;

/** What the frames found have in common, with how many of them; each narrows the search by itself. */
export function Facets({ facets, asked, onTerm }: FacetsProps) {
  const shown = facets.filter(({ values }) => values.length > 0);
  return (
    <nav className="facets" aria-label="Narrow the search">
      {shown.map(({ facet, values, more }) => (
        <section key={facet} aria-label={TITLES[facet]}>
          <h2>{TITLES[facet]}</h2>
          <FacetValues values={values.slice(0, SHOWN)} asked={asked} onTerm={onTerm} />
          {values.length > SHOWN ? (
            <details className="facet-rest">
              <summary>{values.length - SHOWN} more</summary>
              <FacetValues values={values.slice(SHOWN)} asked={asked} onTerm={onTerm} />
            </details>
          ) : null}
          {more > 0 ? <p className="facet-more">and {more} that are rarer</p> : null}
        </section>
      ))}
    </nav>
  );
}

function FacetValues({
  values,
  asked,
  onTerm,
}: Pick<FacetsProps, 'asked' | 'onTerm'> & { readonly values: Facet['values'] }) {
  return (
    <ul>
      {values.map(({ label, frames, term }) => {
        const on = asked.has(term);
        return (
          <li key={term}>
            <button type="button" className="facet" aria-pressed={on} onClick={() => onTerm(term, !on)}>
              <span className="facet-label">{label}</span>
              <span className="numbers facet-count">{frames}</span>
            </button>
          </li>
        );
      })}
    </ul>
  );
}
