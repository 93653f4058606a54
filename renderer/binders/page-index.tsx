import { memo, useEffect, useRef } from 'react';
import type { Page } from '../../shared/api/methods/filing-methods.ts';
import { smallStrips } from '../film/lying-strip.ts';
import { PageSmall } from '../film/page-small.tsx';
import { RouteLink } from '../state/view-state.tsx';
import { fullnessWords, rollsOnPage } from './page-words.ts';
import './page-index.css';

export interface PageIndexProps {
  readonly pages: readonly Page[];
  readonly openId: number | null;
  /** The page a strip would be put into now. */
  readonly aimedId: number | null;
}

/** Every page of the binder in small, in their order. A strip can be let go on one: it goes into its first free pocket. */
export function PageIndex({ pages, openId, aimedId }: PageIndexProps) {
  const list = useRef<HTMLOListElement>(null);
  const many = pages.length;
  useEffect(() => {
    if (many > 0)
      list.current?.querySelector(`[data-page="${openId}"]`)?.scrollIntoView?.({ block: 'nearest' });
  }, [openId, many]);
  return (
    <nav aria-label="Pages of this binder">
      <ol ref={list} className="page-index">
        {pages.map((page) => (
          <PageInIndex
            key={page.id}
            page={page}
            open={page.id === openId}
            aimed={page.id === aimedId && page.id !== openId}
          />
        ))}
      </ol>
    </nav>
  );
}

interface PageInIndexProps {
  readonly page: Page;
  readonly open: boolean;
  readonly aimed: boolean;
}

const PageInIndex = memo(function PageInIndex({ page, open, aimed }: PageInIndexProps) {
  return (
    <li data-page={page.id} className={aimed ? 'page-index-aimed' : undefined}>
      <RouteLink
        to={{ view: 'binders', ids: [page.binderId, page.id] }}
        className="page-index-link"
        {...(open ? { 'aria-current': 'page' as const } : {})}
      >
        <PageSmall rows={page.layout.rows} strips={smallStrips(page)} />
        <span className="numbers" aria-hidden="true">
          {page.number}
        </span>
        <span className="unseen">{describePage(page)}</span>
      </RouteLink>
    </li>
  );
});

function describePage(page: Page): string {
  const rolls = rollsOnPage(page).map(({ number }) => number);
  const named =
    rolls.length === 0
      ? 'empty'
      : `${fullnessWords(page)}, ${rolls.length === 1 ? 'roll' : 'rolls'} ${rolls.join(', ')}`;
  return `Page ${page.number}, ${named}`;
}
