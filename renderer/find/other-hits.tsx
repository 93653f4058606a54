import type { ReactNode } from 'react';
import type { PageHit, RollHit } from '../../shared/api/methods/search-methods.ts';
import { useViewState } from '../state/view-state.tsx';
import { GridList, type GridColumn } from '../ui/grid-list.tsx';
import { nameBinder } from '../../shared/text/place-words.ts';
import type { Hits } from './use-hits.ts';

export interface OtherHitsProps {
  readonly hits: Hits;
  readonly active: number;
  readonly onActive: (index: number) => void;
  readonly empty: ReactNode;
}

const AHEAD = 30;

const ROLL_COLUMNS: readonly GridColumn<RollHit>[] = [
  {
    id: 'number',
    title: 'Number',
    width: 'minmax(6rem, 0.7fr)',
    cell: ({ roll }) => <span className="numbers hit-roll">{roll}</span>,
  },
  { id: 'title', title: 'Title', width: 'minmax(9rem, 2fr)', cell: ({ title }) => title ?? '' },
  { id: 'stock', title: 'Stock', width: 'minmax(7rem, 1fr)', cell: ({ stock }) => stock?.name ?? '' },
  { id: 'camera', title: 'Camera', width: 'minmax(7rem, 1fr)', cell: ({ camera }) => camera?.name ?? '' },
  { id: 'state', title: 'State', width: '7rem', cell: ({ state }) => state },
  {
    id: 'frames',
    title: 'Frames found',
    width: '7rem',
    align: 'end',
    cell: ({ frames }) => <span className="numbers">{frames}</span>,
  },
];

/** The rolls that frames were found on; Enter opens one. */
export function RollHits({ hits, active, onActive, empty }: OtherHitsProps) {
  const viewState = useViewState();
  const found = hits.rolls;
  return (
    <GridList<RollHit>
      label="Rolls found"
      columns={ROLL_COLUMNS}
      count={found.length}
      rowAt={(index) => found[index]}
      rowKey={(index) => found[index]?.rollId ?? index}
      active={active}
      onActive={onActive}
      onOpen={(index) => {
        const roll = found[index];
        if (roll) viewState.go({ view: 'rolls', ids: [roll.rollId] });
      }}
      onVisible={(_first, last) => {
        if (last > found.length - AHEAD) hits.fetchMore();
      }}
      empty={hits.first ? empty : null}
    />
  );
}

const PAGE_COLUMNS: readonly GridColumn<PageHit>[] = [
  {
    id: 'binder',
    title: 'Binder',
    width: 'minmax(8rem, 1fr)',
    cell: ({ binder }) => <span className="hit-roll">{nameBinder(binder)}</span>,
  },
  {
    id: 'page',
    title: 'Page',
    width: '5rem',
    align: 'end',
    cell: ({ page }) => <span className="numbers">{page}</span>,
  },
  { id: 'rolls', title: 'Rolls', width: 'minmax(10rem, 2fr)', cell: ({ rolls }) => rolls.join(', ') },
  {
    id: 'frames',
    title: 'Frames found',
    width: '7rem',
    align: 'end',
    cell: ({ frames }) => <span className="numbers">{frames}</span>,
  },
];

/** The pages that frames found lie in; Enter opens one. */
export function PageHits({ hits, active, onActive, empty }: OtherHitsProps) {
  const viewState = useViewState();
  const found = hits.pages;
  return (
    <GridList<PageHit>
      label="Pages found"
      columns={PAGE_COLUMNS}
      count={found.length}
      rowAt={(index) => found[index]}
      rowKey={(index) => found[index]?.pageId ?? index}
      active={active}
      onActive={onActive}
      onOpen={(index) => {
        const page = found[index];
        if (page) viewState.go({ view: 'binders', ids: [page.binderId, page.pageId] });
      }}
      onVisible={(_first, last) => {
        if (last > found.length - AHEAD) hits.fetchMore();
      }}
      empty={hits.first ? empty : null}
    />
  );
}
