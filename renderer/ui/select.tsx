import { useEffect, useId, useRef, useState, type KeyboardEvent } from 'react';
import { findByTyping, moveInList } from './list-keys.ts';
import { placeBeside, type Place } from './place-beside.ts';
import './select.css';

export interface SelectOption<Value extends string> {
  readonly value: Value;
  readonly label: string;
}

export interface SelectProps<Value extends string> {
  readonly label: string;
  readonly options: readonly SelectOption<Value>[];
  readonly value: Value;
  readonly onChange: (value: Value) => void;
  /** `sentence`: the underlined word of a sentence, whose label the sentence is. */
  readonly look?: 'field' | 'sentence';
  readonly unavailable?: boolean;
}

const OPTION_PX = 28;
const PAGE = 8;

/**
 * One of a few. Drawn by us rather than by the system, so that it keeps to the ground of the window, red included.
 * Keyboard as in the W3C's ARIA Authoring Practices, "Select-Only Combobox".
 */
export function Select<Value extends string>(props: SelectProps<Value>) {
  const { label, options, value, onChange, look = 'field', unavailable = false } = props;
  const [place, setPlace] = useState<Place | null>(null);
  const [active, setActive] = useState(0);
  const button = useRef<HTMLButtonElement>(null);
  const id = useId();
  const chosen = options.findIndex((option) => option.value === value);
  const open = place !== null;

  function show(): void {
    const box = button.current?.getBoundingClientRect();
    if (!box || unavailable) return;
    const size = { width: window.innerWidth, height: window.innerHeight };
    setActive(Math.max(chosen, 0));
    setPlace(placeBeside(box, size, options.length * OPTION_PX + 2, 160));
  }
  function choose(index: number): void {
    const option = options[index];
    setPlace(null);
    if (option && option.value !== value) onChange(option.value);
  }
  function press(event: KeyboardEvent): void {
    const typed =
      event.key.length === 1 && event.key !== ' ' && !event.ctrlKey && !event.metaKey && !event.altKey;
    const names = options.map((option) => option.label);
    if (!open) {
      const opens = ['Enter', ' ', 'ArrowDown', 'ArrowUp'].includes(event.key);
      const found = typed ? findByTyping(names, event.key, chosen) : null;
      if (opens) show();
      if (found !== null) choose(found);
      if (opens || found !== null) event.preventDefault();
      return;
    }
    const moved = typed
      ? findByTyping(names, event.key, active)
      : moveInList(event.key, active, options.length, PAGE);
    if (moved !== null) setActive(moved);
    else if (event.key === 'Enter' || event.key === ' ') choose(active);
    else if (event.key === 'Escape') setPlace(null);
    else if (event.key === 'Tab') return choose(active);
    else return;
    // A dialog around it must not take the Escape for itself.
    event.stopPropagation();
    event.preventDefault();
  }

  const list = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (open) list.current?.children.item(active)?.scrollIntoView?.({ block: 'nearest' });
  }, [open, active]);
  useEffect(() => {
    if (!open) return undefined;
    const close = () => setPlace(null);
    window.addEventListener('resize', close);
    return () => window.removeEventListener('resize', close);
  }, [open]);

  return (
    <div className={`select select-${look}`}>
      <span id={`${id}-label`} className={look === 'sentence' ? 'unseen' : 'text-field-label'}>
        {label}
      </span>
      <button
        ref={button}
        type="button"
        role="combobox"
        className="select-button"
        aria-haspopup="listbox"
        aria-expanded={open}
        aria-controls={`${id}-list`}
        aria-labelledby={`${id}-label ${id}-value`}
        aria-activedescendant={open ? `${id}-${active}` : undefined}
        aria-disabled={unavailable || undefined}
        onClick={() => (open ? setPlace(null) : show())}
        onKeyDown={press}
        onBlur={() => setPlace(null)}
      >
        <span id={`${id}-value`}>{options[chosen]?.label ?? ''}</span>
        <span className="select-arrow" aria-hidden="true" />
      </button>
      <div
        ref={list}
        id={`${id}-list`}
        role="listbox"
        aria-labelledby={`${id}-label`}
        className="select-list"
        hidden={!open}
        style={place ?? undefined}
      >
        {open
          ? options.map((option, index) => (
              // The keyboard is the button's; a mouse chooses here without taking the focus from it.
              // oxlint-disable-next-line jsx-a11y/click-events-have-key-events, jsx-a11y/interactive-supports-focus
              <div
                key={option.value}
                id={`${id}-${index}`}
                role="option"
                aria-selected={index === chosen}
                className={index === active ? 'select-option select-active' : 'select-option'}
                onMouseDown={(event) => event.preventDefault()}
                onMouseMove={() => setActive(index)}
                onClick={() => choose(index)}
              >
                {option.label}
              </div>
            ))
          : null}
      </div>
    </div>
  );
}
