import { useId } from 'react';
import './choice-row.css';

export interface ChoiceRowProps<Value extends string> {
  readonly label: string;
  readonly options: readonly { readonly value: Value; readonly label: string }[];
  readonly value: Value;
  readonly onChange: (value: Value) => void;
  readonly labelUnseen?: boolean;
}

/** One of two to four, all in sight: keep, fill gaps, replace. */
export function ChoiceRow<Value extends string>(props: ChoiceRowProps<Value>) {
  const { label, options, value, onChange, labelUnseen = false } = props;
  const name = useId();
  return (
    <fieldset className="choice-row">
      <legend className={labelUnseen ? 'unseen' : 'choice-row-label'}>{label}</legend>
      {options.map((option) => (
        <label key={option.value} className="choice-row-option">
          <input
            type="radio"
            className="unseen"
            name={name}
            checked={option.value === value}
            onChange={() => onChange(option.value)}
          />
          <span className="choice-row-words">{option.label}</span>
        </label>
      ))}
    </fieldset>
  );
}
