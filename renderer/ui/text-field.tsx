import { useId, type KeyboardEvent, type ReactNode, type Ref } from 'react';
import './text-field.css';

export interface TextFieldProps {
  readonly label: string;
  readonly value: string;
  readonly onChange: (value: string) => void;
  /** What is wrong with the text, in words; said by screen readers. */
  readonly error?: string | undefined;
  /** How the program reads the text: “read as about 20 April 2024”. */
  readonly reading?: ReactNode;
  readonly placeholder?: string;
  /** `beside` for forms of short fields, `above` for long ones, `unseen` where the place says it. */
  readonly labelPlace?: 'beside' | 'above' | 'unseen';
  readonly lines?: number;
  readonly inputMode?: 'text' | 'decimal' | 'numeric' | 'search';
  readonly numbers?: boolean;
  readonly required?: boolean;
  readonly autoFocus?: boolean;
  /** The id of a `datalist` with what can be offered. */
  readonly listId?: string;
  readonly fieldRef?: Ref<HTMLInputElement>;
  readonly onBlur?: () => void;
  readonly onKeyDown?: (event: KeyboardEvent<HTMLElement>) => void;
}

/** One line of text, or several, with its label and what the program makes of it. */
export function TextField(props: TextFieldProps) {
  const {
    label,
    value,
    onChange,
    error,
    reading,
    labelPlace = 'beside',
    lines = 1,
    numbers = false,
    fieldRef,
  } = props;
  const id = useId();
  const noteId = useId();
  const note = error ?? reading;
  const shared = {
    id,
    value,
    className: numbers ? 'text-field-well numbers' : 'text-field-well',
    placeholder: props.placeholder,
    required: props.required,
    'aria-invalid': error === undefined ? undefined : true,
    'aria-describedby': note === undefined || note === null ? undefined : noteId,
    onBlur: props.onBlur,
    onKeyDown: props.onKeyDown,
    spellCheck: lines > 1,
    autoComplete: 'off',
  };
  return (
    <div className={`text-field text-field-${labelPlace}`}>
      <label htmlFor={id} className={labelPlace === 'unseen' ? 'unseen' : 'text-field-label'}>
        {label}
      </label>
      {lines > 1 ? (
        <textarea {...shared} rows={lines} onChange={(event) => onChange(event.currentTarget.value)} />
      ) : (
        <input
          {...shared}
          ref={fieldRef}
          type="text"
          inputMode={props.inputMode}
          list={props.listId}
          // The field a dialog was opened for; the user has just asked for it.
          // oxlint-disable-next-line jsx-a11y/no-autofocus
          autoFocus={props.autoFocus}
          onChange={(event) => onChange(event.currentTarget.value)}
        />
      )}
      {note === undefined || note === null ? null : (
        <p
          id={noteId}
          className={error === undefined ? 'text-field-note' : 'text-field-note text-field-error'}
        >
          {note}
        </p>
      )}
    </div>
  );
}
