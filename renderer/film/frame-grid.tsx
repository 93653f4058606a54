import { useEffect, useRef, type KeyboardEvent, type MouseEvent, type ReactNode } from 'react';
import type { Picking } from '../ui/grid-list.tsx';
import { moveInRows } from './frame-selection.ts';

export interface FrameGridProps {
  /** The name of the grid: `Binder 7, page 31`. */
  readonly label: string;
  /** The frames in it, row by row, from the left. */
  readonly rows: readonly (readonly number[])[];
  /** The frame the keyboard is at, or null before any was reached. */
  readonly active: number | null;
  readonly onPick: (id: number, how: Picking) => void;
  readonly onOpen?: ((id: number) => void) | undefined;
  readonly className?: string;
  /** Rows (`role="row"`) with frames (`FilmFrame` with a `cell`) in them. */
  readonly children: ReactNode;
}

/**
 * Frames that are walked by keyboard: one tab stop; arrows go along the strip and on from row to row, Home and End to
 * the ends of the strip, with Ctrl of all; Shift stretches, Space adds or takes away, Ctrl A picks all, Enter opens.
 * Other keys are left to whoever is around it.
 */
export function FrameGrid(props: FrameGridProps) {
  const { label, rows, active, onPick, onOpen, className = '', children } = props;
  const grid = useRef<HTMLDivElement>(null);

  // The focus goes along with the active frame when it is among the frames already.
  useEffect(() => {
    const here = grid.current;
    const focused = document.activeElement;
    if (!here || active === null || !(focused instanceof HTMLElement)) return;
    if (!here.contains(focused) || focused.dataset['frame'] === undefined) return;
    const frame = here.querySelector(`[data-frame="${active}"]`);
    if (frame instanceof HTMLElement && frame !== focused) frame.focus();
  }, [active]);

  function press(event: KeyboardEvent): void {
    const at = frameOf(event.target);
    if (at === null || event.altKey) return;
    const command = event.ctrlKey || event.metaKey;
    const moved = moveInRows(event.key, command, at, rows);
    if (moved !== null) onPick(moved, event.shiftKey ? 'to' : 'only');
    else if (event.key === 'Enter' && onOpen && !command) onOpen(at);
    else if (event.key === ' ') onPick(at, event.shiftKey ? 'to' : 'toggle');
    else if (event.key === 'a' && command) onPick(at, 'all');
    else return;
    event.preventDefault();
  }
  function click(event: MouseEvent): void {
    const id = frameOf(event.target);
    if (id === null) return;
    onPick(id, event.shiftKey ? 'to' : event.ctrlKey || event.metaKey ? 'toggle' : 'only');
  }
  function doubleClick(event: MouseEvent): void {
    const id = frameOf(event.target);
    if (id !== null) onOpen?.(id);
  }

  return (
    // The frames carry the focus; their keys and clicks are handled here once.
    // oxlint-disable-next-line jsx-a11y/interactive-supports-focus
    <div
      ref={grid}
      role="grid"
      aria-label={label}
      aria-multiselectable
      aria-rowcount={rows.length}
      className={className}
      onKeyDown={press}
      onClick={click}
      onDoubleClick={doubleClick}
    >
      {children}
    </div>
  );
}

/** The frame an event happened on, or null. */
export function frameOf(target: EventTarget): number | null {
  const frame = target instanceof Element ? target.closest('[data-frame]') : null;
  return frame instanceof HTMLElement ? Number(frame.dataset['frame']) : null;
}
