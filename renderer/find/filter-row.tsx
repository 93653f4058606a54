import type { SimpleFilter } from '../../shared/domain/search/filters.ts';
import { getField, type FieldName } from '../../shared/domain/search/search-fields.ts';
import type { FieldValue } from '../../shared/domain/search/search-tree.ts';
import { useState } from 'react';
import { Button } from '../ui/button.tsx';
import { ValueEditor } from './value-editor.tsx';
import { WordsEditor } from './words-editor.tsx';

export interface FilterRowProps {
  /** Null for a filter that was only begun. */
  readonly filter: SimpleFilter | null;
  readonly field: FieldName | 'words';
  readonly onChange: (filter: SimpleFilter) => void;
  readonly onRemove: () => void;
}

/** One filter: what it is about, whether it is ruled out, and its values, of which any will do. */
export function FilterRow({ filter, field, onChange, onRemove }: FilterRowProps) {
  const not = filter?.not ?? false;
  const [more, setMore] = useState(false);
  const label = field === 'words' ? 'words' : getField(field).words;
  const values = filter?.kind === 'field' ? filter.values : [];

  function withValues(next: readonly FieldValue[]): void {
    if (field === 'words') return;
    if (next.length === 0) onRemove();
    else onChange({ kind: 'field', not, field, values: next });
  }
  function removeAt(index: number): void {
    if (index >= values.length) setMore(false);
    else withValues(values.filter((_, at) => at !== index));
  }
  const rows: readonly (FieldValue | null)[] = filter === null || more ? [...values, null] : values;
  return (
    <div className="builder-filter" role="group" aria-label={not ? `not ${label}` : label}>
      <div className="builder-filter-head">
        <span className={not ? 'builder-name builder-not' : 'builder-name'}>
          {not ? 'not ' : ''}
          {label}
        </span>
        {filter === null ? null : (
          <Button
            look="quiet"
            pressed={not}
            name={`not ${label}`}
            onPress={() => onChange({ ...filter, not: !not })}
          >
            not
          </Button>
        )}
        <Button look="quiet" onPress={onRemove} name={`Take away: ${label}`}>
          ×
        </Button>
      </div>
      {field === 'words' ? (
        <WordsEditor
          part={filter?.kind === 'words' ? filter.part : null}
          onPart={(part) => onChange({ kind: 'words', not, part })}
          fresh={filter === null}
        />
      ) : (
        <>
          {rows.map((value, index) => (
            <ValueEditor
              // A value is its place among the others, and keeps the focus when it becomes one.
              // oxlint-disable-next-line react/no-array-index-key
              key={index}
              field={field}
              value={value}
              onValue={(next) => {
                setMore(false);
                withValues(
                  value === null ? [...values, next] : values.map((each, at) => (at === index ? next : each)),
                );
              }}
              onRemove={rows.length > 1 ? () => removeAt(index) : null}
              first={index === 0}
              fresh={value === null}
            />
          ))}
          {rows.at(-1) === null ? null : (
            <Button look="quiet" onPress={() => setMore(true)} name={`Or another ${label}`}>
              or…
            </Button>
          )}
        </>
      )}
    </div>
  );
}
