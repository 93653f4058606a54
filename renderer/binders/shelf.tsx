import { useRef, type KeyboardEvent } from 'react';
import type { Binder } from '../../shared/api/methods/filing-methods.ts';
import { Spine } from '../film/spine.tsx';
import { RouteLink } from '../state/view-state.tsx';
import { moveInList } from '../ui/list-keys.ts';
import { binderWords, count, yearWords } from './page-words.ts';
import './shelf.css';

export interface ShelfProps {
  readonly binders: readonly Binder[];
  readonly openId: number | null;
  readonly onNew: () => void;
}

/** Width of a spine, px: from few pages to many. Our choice. */
function spineWidthPx(pages: number): number {
  return Math.round(40 + Math.min(30, Math.sqrt(pages) * 4));
}

/** The binders as they stand, one pulled out, and a dashed one at the end for the next. Left and Right go along it. */
export function Shelf({ binders, openId, onNew }: ShelfProps) {
  const list = useRef<HTMLUListElement>(null);
  function press(event: KeyboardEvent): void {
    const spines = [...(list.current?.querySelectorAll('a, button') ?? [])];
    const at = spines.findIndex((spine) => spine === document.activeElement);
    const key = { ArrowRight: 'ArrowDown', ArrowLeft: 'ArrowUp' }[event.key] ?? event.key;
    const moved = at < 0 || key === event.key ? null : moveInList(key, at, spines.length, spines.length);
    const spine = moved === null ? undefined : spines[moved];
    if (!(spine instanceof HTMLElement)) return;
    spine.focus();
    event.preventDefault();
  }
  return (
    <nav className="shelf" aria-label="Binders on the shelf">
      {/* oxlint-disable-next-line jsx-a11y/no-noninteractive-element-interactions */}
      <ul ref={list} className="shelf-spines" onKeyDown={press}>
        {binders.map((binder) => (
          <li key={binder.id}>
            <RouteLink
              to={{ view: 'binders', ids: [binder.id] }}
              className="shelf-spine"
              {...(binder.id === openId ? { 'aria-current': 'page' as const } : {})}
            >
              <span className="unseen">{spineName(binder)}</span>
              <Spine
                name={binder.name}
                lines={spineLines(binder)}
                fullness={binder.pockets === 0 ? 0 : binder.pocketsTaken / binder.pockets}
                widthPx={spineWidthPx(binder.pages)}
                open={binder.id === openId}
              />
            </RouteLink>
          </li>
        ))}
        <li>
          <button type="button" className="shelf-spine" onClick={onNew}>
            <span className="unseen">New binder</span>
            <Spine name="+" lines={['new binder']} fullness={null} absent />
          </button>
        </li>
      </ul>
    </nav>
  );
}

/** What stands along the spine: its years, then its film; its place where neither is known. */
function spineLines(binder: Binder): readonly string[] {
  const film = binder.filmFormats.join(', ');
  const lines = [yearWords(binder.shot), film === '' ? null : film].filter((line) => line !== null);
  return lines.length > 0 ? lines : [binder.place ?? 'empty'];
}

function spineName(binder: Binder): string {
  return [
    binderWords(binder.name),
    yearWords(binder.shot),
    binder.filmFormats.join(' and ') || null,
    binder.place,
    count(binder.pages, 'page'),
    count(binder.rolls, 'roll'),
    binder.pockets === 0 ? null : `${binder.pocketsTaken} of ${count(binder.pockets, 'pocket')} taken`,
  ]
    .filter((part) => part !== null)
    .join(', ');
}
