import type { Given } from '../../shared/api/contract.ts';
import type { RollRow } from '../../shared/api/methods/film-methods.ts';
import { describeDate, describeSpan } from '../../shared/text/calendar-words.ts';
import type { GridColumn } from '../ui/grid-list.tsx';

/** What rolls can be sorted by. */
export type RollSort = Given<'rolls.order'>['sort'];

/** The sort a column heading stands for; null for text that names none. */
export function readSort(text: string | undefined): RollSort | null {
  return SORTS.find((sort) => sort === text) ?? null;
}

const SORTS: readonly RollSort[] = [
  'number',
  'title',
  'stock',
  'camera',
  'shot',
  'developed',
  'state',
  'page',
  'frames',
];

/** The columns of the list of rolls. Every sort of the engine has its column, by the same name. */
export const ROLL_COLUMNS: readonly GridColumn<RollRow>[] = [
  {
    id: 'number',
    title: 'Number',
    width: 'minmax(5.5rem, 0.7fr)',
    sortable: true,
    cell: (roll) => <span className="numbers rolls-number">{roll.number}</span>,
  },
  {
    id: 'title',
    title: 'Title',
    width: 'minmax(10rem, 2.4fr)',
    sortable: true,
    cell: (roll) => roll.title ?? <span className="rolls-none">no title</span>,
  },
  {
    id: 'stock',
    title: 'Stock',
    width: 'minmax(8rem, 1.3fr)',
    sortable: true,
    cell: (roll) => (
      <>
        {roll.stock?.name ?? ''} <span className="numbers rolls-more">{roll.filmFormat}</span>
      </>
    ),
  },
  {
    id: 'camera',
    title: 'Camera',
    width: 'minmax(7rem, 1.2fr)',
    sortable: true,
    cell: (roll) => roll.camera?.name ?? '',
  },
  {
    id: 'shot',
    title: 'Shot',
    width: 'minmax(8rem, 1.1fr)',
    sortable: true,
    cell: (roll) => <span className="numbers">{roll.shot === null ? '' : describeSpan(roll.shot)}</span>,
  },
  {
    id: 'developed',
    title: 'Developed',
    width: 'minmax(6rem, 0.7fr)',
    sortable: true,
    cell: (roll) => (
      <span className="numbers">{roll.developed === null ? '' : describeDate(roll.developed)}</span>
    ),
  },
  {
    id: 'state',
    title: 'State',
    width: 'minmax(5.5rem, 0.6fr)',
    sortable: true,
    cell: (roll) => roll.state,
  },
  {
    id: 'page',
    title: 'Page',
    width: 'minmax(8rem, 0.9fr)',
    sortable: true,
    cell: (roll) => <span className="numbers">{pageWords(roll.pages)}</span>,
  },
  {
    id: 'frames',
    title: 'Frames',
    width: 'minmax(4.5rem, 0.4fr)',
    align: 'end',
    sortable: true,
    cell: (roll) => <span className="numbers">{roll.frames === 0 ? '–' : roll.frames}</span>,
  },
  {
    id: 'scans',
    title: 'Scans',
    width: 'minmax(4rem, 0.4fr)',
    align: 'end',
    cell: (roll) => <span className="numbers">{roll.scans === 0 ? '–' : roll.scans}</span>,
  },
];

/** Where a roll lies: `7, page 31`, `7, pages 31 and 32`; nothing while it is not filed. */
export function pageWords(pages: RollRow['pages']): string {
  const byBinder = new Map<string, number[]>();
  for (const { binder, page } of pages) byBinder.set(binder, [...(byBinder.get(binder) ?? []), page]);
  return [...byBinder]
    .map(([binder, numbers]) => {
      const [last, ...others] = [...numbers].sort((a, b) => b - a);
      const words = others.length === 0 ? `page ${last}` : `pages ${others.reverse().join(', ')} and ${last}`;
      return `${binder}, ${words}`;
    })
    .join('; ');
}
