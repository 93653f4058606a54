import { useEffect, useRef, type KeyboardEvent } from 'react';

/** Which column the rows are sorted by. */
export interface GridSort {
  readonly column: string;
  readonly descending: boolean;
}

interface HeaderColumn {
  readonly id: string;
  readonly title: string;
  readonly align?: 'start' | 'end';
  readonly sortable?: boolean;
}

export interface GridHeaderProps {
  readonly columns: readonly HeaderColumn[];
  readonly template: string;
  readonly sort: GridSort | undefined;
  readonly onSort: ((column: string) => void) | undefined;
  /** The column heading the keyboard is at, or null when it is among the rows. */
  readonly focusAt: number | null;
  readonly onFocusAt: (index: number | null) => void;
}

/** The headings of a grid: Left and Right move, Enter sorts, Down goes to the rows. */
export function GridHeader({ columns, template, sort, onSort, focusAt, onFocusAt }: GridHeaderProps) {
  const row = useRef<HTMLDivElement>(null);

  useEffect(() => {
    const grid = row.current?.parentElement;
    if (focusAt === null || grid?.contains(document.activeElement) !== true) return;
    const heading = row.current?.children.item(focusAt);
    if (heading instanceof HTMLElement) heading.focus();
  }, [focusAt]);

  function press(event: KeyboardEvent, index: number): void {
    const column = columns[index];
    if (event.key === 'ArrowRight') onFocusAt(Math.min(index + 1, columns.length - 1));
    else if (event.key === 'ArrowLeft') onFocusAt(Math.max(index - 1, 0));
    else if (event.key === 'ArrowDown') onFocusAt(null);
    else if ((event.key === 'Enter' || event.key === ' ') && column) sortBy(column);
    else return;
    event.preventDefault();
    event.stopPropagation();
  }
  function sortBy(column: HeaderColumn): void {
    if (column.sortable === true) onSort?.(column.id);
  }
  function ariaSort(column: HeaderColumn): 'ascending' | 'descending' | 'none' | undefined {
    if (column.sortable !== true) return undefined;
    if (sort?.column !== column.id) return 'none';
    return sort.descending ? 'descending' : 'ascending';
  }

  return (
    <div
      ref={row}
      role="row"
      aria-rowindex={1}
      className="grid-header"
      style={{ gridTemplateColumns: template }}
    >
      {columns.map((column, index) => (
        <div
          key={column.id}
          role="columnheader"
          aria-colindex={index + 1}
          aria-sort={ariaSort(column)}
          tabIndex={focusAt === index ? 0 : -1}
          className={column.align === 'end' ? 'grid-header-cell grid-list-end' : 'grid-header-cell'}
          onClick={() => sortBy(column)}
          onKeyDown={(event) => press(event, index)}
        >
          {column.title}
        </div>
      ))}
    </div>
  );
}
