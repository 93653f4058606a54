import { SEARCH_FIELDS, type FieldName } from '../../shared/domain/search/search-fields.ts';
import { Select } from '../ui/select.tsx';

export interface AddFilterProps {
  readonly onAdd: (field: FieldName | 'words') => void;
  readonly words?: string;
}

/** Everything the language of the box knows, to be added as a filter. */
export function AddFilter({ onAdd, words = 'Add a filter…' }: AddFilterProps) {
  const options = [
    { value: '', label: words },
    { value: 'words', label: 'words' },
    ...SEARCH_FIELDS.map(({ name, words: label }) => ({ value: name, label })),
  ];
  return (
    <div className="builder-add">
      <Select
        label={words.replace('…', '')}
        look="sentence"
        options={options}
        value=""
        onChange={(chosen) => {
          const field = SEARCH_FIELDS.find(({ name }) => name === chosen)?.name;
          if (chosen === 'words') onAdd('words');
          else if (field !== undefined) onAdd(field);
        }}
      />
    </div>
  );
}
