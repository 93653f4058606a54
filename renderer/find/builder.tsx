import { useState } from 'react';
import type { Filter, SimpleFilter } from '../../shared/domain/search/filters.ts';
import { treeOfFilter } from '../../shared/domain/search/filters.ts';
import { printSearch } from '../../shared/domain/search/print-search.ts';
import type { FieldName } from '../../shared/domain/search/search-fields.ts';
import { Button } from '../ui/button.tsx';
import { AddFilter } from './add-filter.tsx';
import { FilterRow } from './filter-row.tsx';

export interface BuilderProps {
  readonly filters: readonly Filter[];
  /** The same search with other filters. */
  readonly onFilters: (filters: readonly Filter[]) => void;
  /** The text has a mistake: the filters are those of the search before it, and wait. */
  readonly waiting: boolean;
}

/** A filter that was chosen and has no value yet: it is not a part of the search. */
type Begun = FieldName | 'words';

/** The search as filters: what is typed in the box shows here, and what is changed here is typed into the box. */
export function Builder({ filters, onFilters, waiting }: BuilderProps) {
  const [begun, setBegun] = useState<Begun | null>(null);

  const replace = (at: number, filter: Filter) =>
    onFilters(filters.map((each, index) => (index === at ? filter : each)));
  const add = (filter: Filter) => {
    setBegun(null);
    onFilters([...filters, filter]);
  };
  const rows: readonly (Filter | null)[] = begun === null ? filters : [...filters, null];
  const remove = (at: number) => onFilters(filters.filter((_, index) => index !== at));
  return (
    <section className="builder" aria-label="Filters">
      <h2>Filters</h2>
      {waiting ? (
        <p className="builder-waits">The box has a mistake. These are the filters before it.</p>
      ) : null}
      <fieldset disabled={waiting} className="builder-filters">
        <legend className="unseen">All of these must hold</legend>
        {filters.length === 0 && begun === null ? (
          <p className="builder-none">
            None: every frame is found. What is typed into the box shows here, too.
          </p>
        ) : null}
        {rows.map((filter, index) => (
          <FilterPart
            // A filter is its place among the others: it keeps it, and the focus, while it is changed and when one
            // that was only begun becomes a part of the search.
            // oxlint-disable-next-line react/no-array-index-key
            key={index}
            filter={filter}
            begun={begun ?? 'words'}
            onChange={(next) => (filter === null ? add(next) : replace(index, next))}
            onRemove={() => (filter === null ? setBegun(null) : remove(index))}
          />
        ))}
        <AddFilter onAdd={setBegun} />
      </fieldset>
    </section>
  );
}

interface FilterPartProps {
  /** Null for one that was only begun. */
  readonly filter: Filter | null;
  readonly begun: Begun;
  readonly onChange: (filter: Filter) => void;
  readonly onRemove: () => void;
}

function FilterPart({ filter, begun, onChange, onRemove }: FilterPartProps) {
  if (filter?.kind === 'any') return <AnyOf filter={filter} onChange={onChange} onRemove={onRemove} />;
  if (filter?.kind === 'text') {
    const text = printSearch(treeOfFilter(filter));
    return (
      <div className="builder-text" role="group" aria-label={`As typed: ${text}`}>
        <code>{text}</code>
        <Button look="quiet" onPress={onRemove} name={`Take away ${text}`}>
          ×
        </Button>
        <p>More than filters show: it is changed in the box.</p>
      </div>
    );
  }
  return <FilterRow filter={filter} field={nameOf(filter, begun)} onChange={onChange} onRemove={onRemove} />;
}

function nameOf(filter: SimpleFilter | null, begun: Begun): Begun {
  if (filter === null) return begun;
  return filter.kind === 'words' ? 'words' : filter.field;
}

/** Alternatives, of which one will do (or none, when ruled out). */
function AnyOf({
  filter,
  onChange,
  onRemove,
}: Omit<FilterPartProps, 'filter' | 'begun'> & { readonly filter: Extract<Filter, { kind: 'any' }> }) {
  const { parts, not } = filter;
  const [begun, setBegun] = useState<Begun | null>(null);
  const rows: readonly (SimpleFilter | null)[] = begun === null ? parts : [...parts, null];
  const withParts = (next: readonly SimpleFilter[]) => {
    const [only] = next;
    if (only === undefined) onRemove();
    else if (next.length === 1 && !not) onChange(only);
    else onChange({ ...filter, parts: next });
  };
  return (
    <div className="builder-any" role="group" aria-label={not ? 'None of these' : 'One of these'}>
      <div className="builder-any-head">
        <Button
          look="quiet"
          pressed={not}
          onPress={() => onChange({ ...filter, not: !not })}
          name={not ? 'None of these: change to one of these' : 'One of these: change to none of these'}
        >
          {not ? 'none of these' : 'one of these'}
        </Button>
      </div>
      {rows.map((part, index) => (
        <FilterRow
          // As above.
          // oxlint-disable-next-line react/no-array-index-key
          key={index}
          filter={part}
          field={nameOf(part, begun ?? 'words')}
          onChange={(next) => {
            setBegun(null);
            withParts(
              part === null ? [...parts, next] : parts.map((each, at) => (at === index ? next : each)),
            );
          }}
          onRemove={() => {
            if (part === null) setBegun(null);
            else withParts(parts.filter((_, at) => at !== index));
          }}
        />
      ))}
      {begun === null ? <AddFilter onAdd={setBegun} words="or…" /> : null}
    </div>
  );
}
