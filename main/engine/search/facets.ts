import type { Facet } from '../../../shared/api/methods/search-methods.ts';
import type { FieldName } from '../../../shared/domain/search/search-fields.ts';
import { printSearch } from '../../../shared/domain/search/print-search.ts';
import { findField } from '../../../shared/domain/search/search-fields.ts';
import type { FieldValue } from '../../../shared/domain/search/search-tree.ts';
import type { FacetName, Tally } from './tally.ts';

/** Values shown per facet. Our choice: a list longer than this is no overview. */
const MOST_VALUES = 100;

const FIELDS: Readonly<Record<FacetName, FieldName>> = {
  stock: 'stock',
  camera: 'camera',
  year: 'date',
  state: 'state',
  process: 'process',
  format: 'format',
  tag: 'tag',
  place: 'place',
  outing: 'outing',
};

function valueOf(field: FieldName, label: string): FieldValue {
  const kind = findField(field)?.kind;
  if (kind === 'date') return { kind, from: label, to: label };
  if (kind === 'choice') return { kind, choice: label };
  return { kind: 'text', text: label.replace(/["“”„\p{Cc}]/gu, ' ').trim(), whole: true };
}

/** The counts of a result as facets: years in their order, everything else most frequent first. */
export function facetsOf(tally: Tally): Facet[] {
  return [...tally.counts].map(([facet, counts]) => {
    const field = FIELDS[facet];
    const byName = (a: string, b: string) => (a < b ? -1 : Number(a > b));
    const values = [...counts]
      .sort(([a, framesA], [b, framesB]) => (facet === 'year' ? 0 : framesB - framesA) || byName(a, b))
      .slice(0, MOST_VALUES)
      .map(([label, frames]) => ({
        label,
        frames,
        term: printSearch({ kind: 'field', field, values: [valueOf(field, label)] }),
      }));
    return { facet, values, more: Math.max(0, counts.size - values.length) };
  });
}
