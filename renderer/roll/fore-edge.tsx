import type { Roll } from '../../shared/api/methods/film-methods.ts';
import { useArchive } from '../api/use-query.ts';
import { RouteLink } from '../state/view-state.tsx';
import { binderWords } from './roll-words.ts';
import './fore-edge.css';

/** The edge of the open binder: its spine, its pages as ticks, the present ones in pencil. */
export function ForeEdge({ roll }: { readonly roll: Roll }) {
  const binders = useArchive('binders.list', {}).data;
  const [first] = roll.pages;
  if (!first) return <div className="fore-edge" aria-hidden="true" />;
  const here = new Set(roll.pages.filter(({ binder }) => binder === first.binder).map(({ page }) => page));
  const binder = binders?.find(({ name }) => name === first.binder);
  const last = Math.max(binder?.pages ?? 0, ...here);
  const params = { binder: first.binder, page: String(first.page) };
  return (
    <nav className="fore-edge" aria-label="Binder">
      <RouteLink to={{ view: 'binders', params }} className="fore-spine">
        <span>{binderWords(first.binder)}</span>
        <span className="unseen">, page {first.page}</span>
      </RouteLink>
      <ol aria-hidden="true">
        {Array.from({ length: Math.min(last, MOST_TICKS) }, (_, index) => index + 1).map((page) => (
          <li key={page} className={here.has(page) ? 'fore-here' : undefined}>
            {here.has(page) || page % 10 === 0 || page === 1 ? <i>{page}</i> : null}
          </li>
        ))}
      </ol>
    </nav>
  );
}

/** As many pages as a thick binder holds. Our choice. */
const MOST_TICKS = 120;
