import { useId, useState, type KeyboardEvent } from 'react';
import './scale-field.css';

export interface ScaleFieldProps {
  readonly label: string;
  readonly value: number;
  readonly least: number;
  readonly most: number;
  readonly step: number;
  /** Where the mark of “nothing changed” stands. */
  readonly middle: number;
  /** The value in words for screen readers: “0.3 stops lighter”. */
  readonly say: (value: number) => string;
  readonly onChange: (value: number) => void;
}

/** A number on a scale: dragged, moved by arrow keys, or typed. A double click brings it back to the middle. */
export function ScaleField(props: ScaleFieldProps) {
  const { label, value, least, most, step, middle, say, onChange } = props;
  const id = useId();
  const [typed, setTyped] = useState<string | null>(null);

  function read(text: string): number | null {
    const number = Number(text.trim().replace(',', '.').replace('−', '-'));
    return text.trim() !== '' && number >= least && number <= most ? number : null;
  }
  function type(text: string): void {
    setTyped(text);
    const number = read(text);
    if (number !== null) onChange(number);
  }
  function press(event: KeyboardEvent): void {
    const way = event.key === 'ArrowUp' ? 1 : event.key === 'ArrowDown' ? -1 : 0;
    if (way === 0) return;
    event.preventDefault();
    setTyped(null);
    onChange(rounded(Math.min(most, Math.max(least, value + way * step))));
  }
  const isWrong = typed !== null && read(typed) === null;
  return (
    <div className="scale-field">
      <label htmlFor={id} className="scale-field-label">
        {label}
      </label>
      <input
        id={id}
        type="range"
        min={least}
        max={most}
        step={step}
        value={value}
        aria-valuetext={say(value)}
        style={{ backgroundPositionX: `${(100 * (middle - least)) / (most - least)}%` }}
        onChange={(event) => {
          setTyped(null);
          onChange(Number(event.currentTarget.value));
        }}
        onDoubleClick={() => onChange(middle)}
      />
      <input
        type="text"
        inputMode="decimal"
        className="scale-field-number numbers"
        aria-label={`${label}, ${least} to ${most}`}
        aria-invalid={isWrong || undefined}
        value={typed ?? String(rounded(value)).replace('-', '−')}
        onChange={(event) => type(event.currentTarget.value)}
        onBlur={() => setTyped(null)}
        onKeyDown={press}
      />
    </div>
  );
}

/** Without what binary fractions add. */
function rounded(value: number): number {
  return Math.round(value * 1000) / 1000;
}
