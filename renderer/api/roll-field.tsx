import { useId, useState, type KeyboardEvent } from 'react';
import type { RollRow } from '../../shared/api/methods/film-methods.ts';
import { moveInList } from '../ui/list-keys.ts';
import { useArchive } from './use-query.ts';
import './roll-field.css';

export interface RollFieldProps {
  readonly label: string;
  /** The roll that is chosen, or null. */
  readonly roll: Pick<RollRow, 'id' | 'number'> | null;
  readonly onRoll: (roll: RollRow) => void;
  readonly placeholder?: string;
}

/** Rolls offered at once. Our choice. */
const OFFERED = 8;

/**
 * A roll, found by typing of its number, title, stock or camera. Keyboard as in the W3C's ARIA Authoring Practices,
 * "Editable Combobox With List Autocomplete".
 */
export function RollField({ label, roll, onRoll, placeholder }: RollFieldProps) {
  const id = useId();
  const [typed, setTyped] = useState<string | null>(null);
  const [active, setActive] = useState(0);
  const open = typed !== null;
  const rolls = useOfferedRolls(typed ?? '', open);
  const at = Math.min(active, rolls.length - 1);

  function choose(chosen: RollRow | undefined): void {
    if (!chosen) return;
    setTyped(null);
    onRoll(chosen);
  }
  function press(event: KeyboardEvent): void {
    if (!open) {
      if (event.key !== 'ArrowDown' && event.key !== 'ArrowUp') return;
      setTyped('');
      setActive(0);
    } else if (event.key === 'ArrowDown' || event.key === 'ArrowUp') {
      setActive(moveInList(event.key, at, rolls.length, OFFERED) ?? at);
    } else if (event.key === 'Enter') choose(rolls[at]);
    else if (event.key === 'Escape') setTyped(null);
    else return;
    event.preventDefault();
    event.stopPropagation();
  }

  return (
    <div className="roll-field text-field text-field-above">
      <label htmlFor={id} className="text-field-label">
        {label}
      </label>
      <input
        id={id}
        type="text"
        role="combobox"
        className="text-field-well numbers"
        autoComplete="off"
        spellCheck={false}
        aria-expanded={open}
        aria-controls={`${id}-list`}
        aria-autocomplete="list"
        aria-activedescendant={open && at >= 0 ? `${id}-${at}` : undefined}
        placeholder={placeholder ?? 'Number, title or stock'}
        value={typed ?? roll?.number ?? ''}
        onChange={(event) => {
          setTyped(event.currentTarget.value);
          setActive(0);
        }}
        onFocus={(event) => event.currentTarget.select()}
        onClick={() => setTyped((before) => before ?? '')}
        onKeyDown={press}
        onBlur={() => setTyped(null)}
      />
      <div
        id={`${id}-list`}
        role="listbox"
        aria-label={`Rolls for ${label}`}
        className="roll-field-list"
        hidden={!open}
      >
        {rolls.map((offered, index) => (
          // The keyboard is the field's; a mouse chooses here without taking the focus from it.
          // oxlint-disable-next-line jsx-a11y/click-events-have-key-events, jsx-a11y/interactive-supports-focus
          <div
            key={offered.id}
            id={`${id}-${index}`}
            role="option"
            aria-selected={index === at}
            className="roll-field-option"
            onMouseDown={(event) => event.preventDefault()}
            onMouseMove={() => setActive(index)}
            onClick={() => choose(offered)}
          >
            <span className="numbers roll-field-number">{offered.number}</span>
            <span className="roll-field-title">{offered.title ?? offered.stock?.name ?? ''}</span>
            <span className="roll-field-state">{offered.state}</span>
          </div>
        ))}
        {open && rolls.length === 0 ? <p className="roll-field-option">No roll of that name.</p> : null}
      </div>
    </div>
  );
}

/** The first rolls that `words` name, the newest number first. */
function useOfferedRolls(words: string, when: boolean): readonly RollRow[] {
  const filter = words.trim() === '' ? {} : { words };
  const order = useArchive(
    'rolls.order',
    { sort: 'number', descending: true, filter },
    { when, keepFormer: true },
  );
  const ids = (order.data?.ids ?? []).slice(0, OFFERED);
  const rows = useArchive('rolls.rows', { ids }, { when: when && ids.length > 0, keepFormer: true });
  return ids.length === 0 ? [] : (rows.data ?? []);
}
