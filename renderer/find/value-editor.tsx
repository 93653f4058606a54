import { useId, useState } from 'react';
import { draftOf, emptyDraft, readDraft, type ValueDraft } from '../../shared/domain/search/filter-drafts.ts';
import { getField, type FieldName } from '../../shared/domain/search/search-fields.ts';
import type { FieldValue } from '../../shared/domain/search/search-tree.ts';
import { describeSearchMistake } from '../../shared/text/describe-search.ts';
import { Button } from '../ui/button.tsx';
import { CheckBox } from '../ui/check-box.tsx';
import { Select } from '../ui/select.tsx';
import { TextField } from '../ui/text-field.tsx';
import { useKnownValues } from './use-known-values.ts';

export interface ValueEditorProps {
  readonly field: FieldName;
  /** Null for a value that was only begun. */
  readonly value: FieldValue | null;
  readonly onValue: (value: FieldValue) => void;
  /** Null where it is the only one. */
  readonly onRemove: (() => void) | null;
  readonly first: boolean;
  /** Takes the focus when it appears. */
  readonly fresh: boolean;
}

/** One value of a filter. What cannot be a value yet stays in its field and is told; the search is as before. */
export function ValueEditor({ field, value, onValue, onRemove, first, fresh }: ValueEditorProps) {
  const [draft, setDraft] = useState<ValueDraft | null>(null);
  const shown = draft ?? (value === null ? emptyDraft(field) : draftOf(value));
  const read = draft === null ? null : readDraft(field, draft);
  const error =
    read === null || read.ok || read.reason === 'value_missing'
      ? undefined
      : describeSearchMistake(read.reason);

  function change(next: ValueDraft): void {
    setDraft(next);
    const known = readDraft(field, next);
    if (known.ok) onValue(known.value);
  }
  return (
    <div
      className="builder-value"
      role="presentation"
      onBlur={(event) => {
        if (!event.currentTarget.contains(event.relatedTarget)) setDraft(null);
      }}
    >
      {first ? null : <span className="builder-or">or</span>}
      <Fields field={field} draft={shown} onDraft={change} error={error} fresh={fresh} />
      {onRemove === null ? null : (
        <Button look="quiet" onPress={onRemove} name="Take this value away">
          ×
        </Button>
      )}
    </div>
  );
}

interface FieldsProps {
  readonly field: FieldName;
  readonly draft: ValueDraft;
  readonly onDraft: (draft: ValueDraft) => void;
  readonly error: string | undefined;
  readonly fresh: boolean;
}

function Fields({ field, draft, onDraft, error, fresh }: FieldsProps) {
  const known = getField(field);
  if (draft.kind === 'choice') {
    const options = known.choices.map((choice) => ({ value: choice, label: choice }));
    return (
      <Select
        label={known.words}
        look="sentence"
        options={draft.choice === '' ? [{ value: '', label: 'choose…' }, ...options] : options}
        value={draft.choice}
        onChange={(choice) => onDraft({ kind: 'choice', choice })}
      />
    );
  }
  if (draft.kind === 'text') {
    return (
      <>
        <TextWithKnown field={field} draft={draft} onDraft={onDraft} error={error} fresh={fresh} />
        {draft.text === '' ? null : (
          <CheckBox checked={draft.whole} onChange={(whole) => onDraft({ ...draft, whole })}>
            the whole name
          </CheckBox>
        )}
        {known.kind === 'order' ? (
          <Button look="quiet" onPress={() => onDraft({ kind: 'ends', from: draft.text, to: draft.text })}>
            from … to
          </Button>
        ) : null}
      </>
    );
  }
  const numbers = known.kind === 'number';
  // Where only one end is given, the value itself may have been meant.
  const one = draft.from === '' || draft.to === '' ? `${draft.from}${draft.to}`.trim() : '';
  return (
    <div className="builder-ends">
      <TextField
        label={`${known.words}, from`}
        labelPlace="unseen"
        placeholder="from"
        value={draft.from}
        numbers={numbers}
        inputMode={numbers ? 'decimal' : 'text'}
        autoFocus={fresh}
        onChange={(from) => onDraft({ ...draft, from })}
      />
      <span>to</span>
      <TextField
        label={`${known.words}, to`}
        labelPlace="unseen"
        placeholder="to"
        value={draft.to}
        numbers={numbers}
        inputMode={numbers ? 'decimal' : 'text'}
        onChange={(to) => onDraft({ ...draft, to })}
      />
      {one === '' ? null : (
        <Button look="quiet" onPress={() => onDraft({ ...draft, from: one, to: one })} name={`Just ${one}`}>
          just {one}
        </Button>
      )}
      {known.unit === '' ? null : <span className="builder-unit">{known.unit.trim()}</span>}
      {error === undefined ? null : (
        <p className="builder-error" role="alert">
          {error}
        </p>
      )}
    </div>
  );
}

/** A text field that offers what the archive has. */
function TextWithKnown({
  field,
  draft,
  onDraft,
  error,
  fresh,
}: Omit<FieldsProps, 'draft'> & { readonly draft: Extract<ValueDraft, { kind: 'text' }> }) {
  const listId = useId();
  const names = useKnownValues(field);
  return (
    <>
      <TextField
        label={getField(field).words}
        labelPlace="unseen"
        value={draft.text}
        autoFocus={fresh}
        listId={listId}
        onChange={(text) => onDraft({ ...draft, text, whole: draft.whole && text !== '' })}
        error={error}
      />
      <datalist id={listId}>
        {names.map((name) => (
          <option key={name} value={name}>
            {name}
          </option>
        ))}
      </datalist>
    </>
  );
}
