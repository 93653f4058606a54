import { useEffect, useId, useRef, useState, type KeyboardEvent, type ReactNode } from 'react';
import { Keys } from './keys.tsx';
import { findByTyping, moveInList } from './list-keys.ts';
import { placeBeside, type Place } from './place-beside.ts';
import './menu.css';

export interface MenuItem {
  readonly label: string;
  readonly onPress: () => void;
  readonly keys?: string;
  /** Why it cannot be used now. */
  readonly unavailable?: string;
}

export interface MenuProps {
  readonly label: string;
  readonly items: readonly MenuItem[];
  /** What the button shows, where it is not the label in words. */
  readonly children?: ReactNode;
}

const ITEM_PX = 28;

/** A button with a few actions behind it. Keyboard as in the W3C's ARIA Authoring Practices, "Menu Button". */
export function Menu({ label, items, children }: MenuProps) {
  const [place, setPlace] = useState<Place | null>(null);
  const [active, setActive] = useState(0);
  const button = useRef<HTMLButtonElement>(null);
  const list = useRef<HTMLDivElement>(null);
  const id = useId();
  const open = place !== null;

  useEffect(() => {
    const item = open ? list.current?.children.item(active) : null;
    if (item instanceof HTMLElement) item.focus();
  }, [open, active]);

  function show(at: number): void {
    const box = button.current?.getBoundingClientRect();
    if (!box) return;
    setActive(at);
    setPlace(
      placeBeside(
        box,
        { width: window.innerWidth, height: window.innerHeight },
        items.length * ITEM_PX + 2,
        200,
      ),
    );
  }
  function hide(): void {
    setPlace(null);
    button.current?.focus();
  }
  function use(item: MenuItem): void {
    if (item.unavailable !== undefined) return;
    hide();
    item.onPress();
  }
  function pressInList(event: KeyboardEvent): void {
    const names = items.map((item) => item.label);
    const typed = event.key.length === 1 && event.key !== ' ';
    const moved = typed ? findByTyping(names, event.key, active) : moveRound(event.key, active, items.length);
    const item = items[active];
    if (moved !== null) setActive(moved);
    else if ((event.key === 'Enter' || event.key === ' ') && item) use(item);
    else if (event.key === 'Escape') hide();
    else if (event.key === 'Tab') return setPlace(null);
    else return;
    event.preventDefault();
    event.stopPropagation();
  }

  return (
    <div className="menu">
      <button
        ref={button}
        id={`${id}-button`}
        type="button"
        className="button button-plain"
        aria-haspopup="menu"
        aria-expanded={open}
        aria-label={children === undefined ? undefined : label}
        onClick={() => (open ? hide() : show(0))}
        onKeyDown={(event) => {
          if (event.key !== 'ArrowDown' && event.key !== 'ArrowUp') return;
          event.preventDefault();
          show(event.key === 'ArrowDown' ? 0 : items.length - 1);
        }}
      >
        {children ?? label}
        <span className="select-arrow" aria-hidden="true" />
      </button>
      {place === null ? null : (
        <div
          ref={list}
          role="menu"
          tabIndex={-1}
          aria-labelledby={`${id}-button`}
          className="menu-list"
          style={place}
          onKeyDown={pressInList}
          onBlur={(event) => {
            if (!event.currentTarget.contains(event.relatedTarget)) setPlace(null);
          }}
        >
          {items.map((item, index) => (
            <button
              key={item.label}
              type="button"
              role="menuitem"
              tabIndex={index === active ? 0 : -1}
              className="menu-item"
              aria-disabled={item.unavailable === undefined ? undefined : true}
              title={item.unavailable}
              onClick={() => use(item)}
              onMouseMove={() => setActive(index)}
            >
              <span>{item.label}</span>
              {item.keys === undefined ? null : <Keys keys={item.keys} />}
            </button>
          ))}
        </div>
      )}
    </div>
  );
}

/** As in any list, but going round at either end. */
function moveRound(key: string, at: number, count: number): number | null {
  if (key === 'ArrowDown' && at === count - 1) return 0;
  if (key === 'ArrowUp' && at === 0) return count - 1;
  return moveInList(key, at, count, count);
}
