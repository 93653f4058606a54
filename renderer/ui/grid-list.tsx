import { defaultRangeExtractor, useVirtualizer, type Range } from '@tanstack/react-virtual';
import {
  useCallback,
  useEffect,
  useRef,
  useState,
  type KeyboardEvent,
  type MouseEvent,
  type ReactNode,
} from 'react';
import { GridHeader, type GridSort } from './grid-header.tsx';
import { moveInList } from './list-keys.ts';
import './grid-list.css';

export interface GridColumn<Row> {
  readonly id: string;
  readonly title: string;
  /** A track of a CSS grid: `6rem`, `minmax(8rem, 2fr)`. */
  readonly width: string;
  readonly align?: 'start' | 'end';
  readonly sortable?: boolean;
  readonly cell: (row: Row) => ReactNode;
}

/** How a row was picked: alone, added or taken away, the run up to it, or everything. */
export type Picking = 'only' | 'toggle' | 'to' | 'all';

export interface GridListProps<Row> {
  readonly label: string;
  readonly columns: readonly GridColumn<Row>[];
  readonly count: number;
  /** The row at an index, or undefined while it is still on its way. */
  readonly rowAt: (index: number) => Row | undefined;
  readonly rowKey: (index: number) => string | number;
  /** The row that the keyboard is at. */
  readonly active: number;
  readonly onActive: (index: number) => void;
  readonly onOpen?: (index: number) => void;
  readonly isPicked?: (index: number) => boolean;
  readonly onPick?: (index: number, how: Picking) => void;
  readonly sort?: GridSort;
  readonly onSort?: (column: string) => void;
  /** Told which rows are looked at, so that they can be fetched. */
  readonly onVisible?: (first: number, last: number) => void;
  readonly rowHeightPx?: number;
  /** What stands in place of the rows when there are none. */
  readonly empty?: ReactNode;
}

const ROW_PX = 26;
const HEADER_PX = 28;
/** Rows drawn beyond each edge, so that a quick scroll does not show bare ground. Our choice. */
const OVERSCAN = 10;

/**
 * A long list as a grid of rows and columns. Only the rows in sight are in the page, and the one the keyboard is
 * at, which keeps its focus when it is scrolled out. One tab stop; arrows, Page, Home and End move; Enter opens;
 * Space and Shift pick. Roles as in the W3C's ARIA Authoring Practices, "Grid and Table Properties".
 */
export function GridList<Row>(props: GridListProps<Row>) {
  const { label, columns, count, rowAt, rowKey, active, onActive, onOpen, isPicked, onPick, onVisible } =
    props;
  const rowPx = props.rowHeightPx ?? ROW_PX;
  const scroller = useRef<HTMLDivElement>(null);
  const [headerAt, setHeaderAt] = useState<number | null>(null);
  const at = count === 0 ? -1 : Math.min(Math.max(active, 0), count - 1);
  const inHeader = count === 0 ? (headerAt ?? 0) : headerAt;

  const rangeExtractor = useCallback(
    (range: Range) => {
      const shown = defaultRangeExtractor(range);
      return at < 0 || shown.includes(at) ? shown : [...shown, at].sort((a, b) => a - b);
    },
    [at],
  );
  const virtualizer = useVirtualizer({
    count,
    getScrollElement: () => scroller.current,
    estimateSize: () => rowPx,
    getItemKey: rowKey,
    overscan: OVERSCAN,
    scrollMargin: HEADER_PX,
    scrollPaddingStart: HEADER_PX,
    // React warns of synchronous updates from the list's own layout effects; its scheduling is quick enough.
    useFlushSync: false,
    rangeExtractor,
  });

  const first = virtualizer.range?.startIndex ?? 0;
  const last = virtualizer.range?.endIndex ?? 0;
  useEffect(() => {
    if (count > 0) onVisible?.(first, Math.min(last, count - 1));
  }, [count, first, last, onVisible]);

  // The focus follows the active row only when it is in this list already. A row that leaves the page takes the
  // focus with it before effects run, so moving says beforehand that the focus is to come along.
  const bringsFocus = useRef(false);
  useEffect(() => {
    const grid = scroller.current;
    const wanted = bringsFocus.current || grid?.contains(document.activeElement) === true;
    bringsFocus.current = false;
    if (!grid || !wanted || inHeader !== null) return;
    const row = grid.querySelector(`[data-index="${at}"]`);
    if (row instanceof HTMLElement && row !== document.activeElement) row.focus({ preventScroll: true });
  }, [at, inHeader]);

  function moveTo(index: number): void {
    bringsFocus.current = index !== at;
    setHeaderAt(null);
    virtualizer.scrollToIndex(index, { align: 'auto' });
    onActive(index);
  }

  function pressInRows(event: KeyboardEvent): void {
    const pageRows = Math.max(1, Math.floor(((scroller.current?.clientHeight ?? 0) - HEADER_PX) / rowPx) - 1);
    const moved = moveInList(event.key, at, count, pageRows);
    if (event.key === 'ArrowUp' && at === 0 && !event.shiftKey) setHeaderAt(0);
    else if (moved !== null) {
      moveTo(moved);
      onPick?.(moved, event.shiftKey ? 'to' : 'only');
    } else if (event.key === 'Enter') onOpen?.(at);
    else if (event.key === ' ' && onPick) onPick(at, event.shiftKey ? 'to' : 'toggle');
    else if (event.key === 'a' && (event.ctrlKey || event.metaKey) && onPick) onPick(at, 'all');
    else return;
    event.preventDefault();
  }

  function clickRow(event: MouseEvent, index: number): void {
    setHeaderAt(null);
    onActive(index);
    onPick?.(index, event.shiftKey ? 'to' : event.ctrlKey || event.metaKey ? 'toggle' : 'only');
  }

  const template = columns.map((column) => column.width).join(' ');
  return (
    <div
      ref={scroller}
      role="grid"
      aria-label={label}
      aria-rowcount={count + 1}
      aria-colcount={columns.length}
      aria-multiselectable={onPick ? true : undefined}
      className="grid-list"
    >
      <div className="grid-list-table">
        <GridHeader
          columns={columns}
          template={template}
          sort={props.sort}
          onSort={props.onSort}
          focusAt={inHeader}
          onFocusAt={(index) => {
            setHeaderAt(index);
            if (index === null && at >= 0) moveTo(at);
          }}
        />
        {count === 0 ? <div className="grid-list-empty">{props.empty}</div> : null}
        {/* The rows carry the focus; their keys are handled here once. */}
        {/* oxlint-disable-next-line jsx-a11y/no-noninteractive-element-interactions */}
        <div
          role="rowgroup"
          className="grid-list-rows"
          style={{ height: virtualizer.getTotalSize() }}
          onKeyDown={pressInRows}
        >
          {virtualizer.getVirtualItems().map(({ index, key, start }) => {
            const row = rowAt(index);
            return (
              // oxlint-disable-next-line jsx-a11y/click-events-have-key-events
              <div
                key={key}
                role="row"
                aria-rowindex={index + 2}
                aria-selected={onPick ? (isPicked?.(index) ?? false) : index === at}
                aria-busy={row === undefined || undefined}
                data-index={index}
                tabIndex={index === at && inHeader === null ? 0 : -1}
                className="grid-list-row"
                style={{
                  gridTemplateColumns: template,
                  height: rowPx,
                  // Placed rather than moved: a list that opens within a moved row would be placed by it.
                  top: start - HEADER_PX,
                }}
                onClick={(event) => clickRow(event, index)}
                onDoubleClick={() => onOpen?.(index)}
              >
                {columns.map((column, columnIndex) => (
                  <div
                    key={column.id}
                    role="gridcell"
                    aria-colindex={columnIndex + 1}
                    className={column.align === 'end' ? 'grid-list-cell grid-list-end' : 'grid-list-cell'}
                  >
                    {row === undefined ? null : column.cell(row)}
                  </div>
                ))}
              </div>
            );
          })}
        </div>
      </div>
    </div>
  );
}
