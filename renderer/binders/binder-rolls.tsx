import { useMemo, useState } from 'react';
import type { Page } from '../../shared/api/methods/filing-methods.ts';
import { useViewState } from '../state/view-state.tsx';
import { GridList, type GridColumn } from '../ui/grid-list.tsx';
import { rollsOnPage, type RollOnPage } from './page-words.ts';

interface RollLine extends RollOnPage {
  readonly page: Page;
}

export interface BinderRollsProps {
  readonly pages: readonly Page[];
  readonly openPageId: number | null;
}

const COLUMNS: readonly GridColumn<RollLine>[] = [
  {
    id: 'page',
    title: 'Page',
    width: '3.2rem',
    cell: ({ page }) => <span className="numbers">{page.number}</span>,
  },
  {
    id: 'roll',
    title: 'Roll',
    width: '6rem',
    cell: ({ number }) => <span className="numbers">{number}</span>,
  },
  { id: 'title', title: 'Title', width: 'minmax(6rem, 1fr)', cell: ({ title }) => title ?? '' },
  {
    id: 'frames',
    title: 'Frames',
    width: '4rem',
    align: 'end',
    cell: ({ frames }) => <span className="numbers">{frames}</span>,
  },
];

/** Every roll of the binder with its page. Going along it turns the pages. */
export function BinderRolls({ pages, openPageId }: BinderRollsProps) {
  const viewState = useViewState();
  const lines = useMemo(
    () => pages.flatMap((page) => rollsOnPage(page).map((roll): RollLine => ({ ...roll, page }))),
    [pages],
  );
  const [active, setActive] = useState(0);
  const openAt = lines.findIndex(({ page }) => page.id === openPageId);
  const at = lines[active]?.page.id === openPageId ? active : Math.max(0, openAt);
  const open = (index: number) => {
    const line = lines[index];
    setActive(index);
    if (line && line.page.id !== openPageId) {
      viewState.go({ view: 'binders', ids: [line.page.binderId, line.page.id] });
    }
  };
  return (
    <GridList
      label="Rolls in this binder"
      columns={COLUMNS}
      count={lines.length}
      rowAt={(index) => lines[index]}
      rowKey={(index) => `${lines[index]?.page.id} ${lines[index]?.rollId}`}
      active={at}
      onActive={open}
      onOpen={(index) => {
        const line = lines[index];
        if (line) viewState.go({ view: 'rolls', ids: [line.rollId] });
      }}
      empty={<p>No film in this binder yet.</p>}
    />
  );
}
