import { useEffect, useRef, useState } from 'react';
import { describeError } from '../../shared/text/describe-error.ts';
import { useArchive } from '../api/use-query.ts';
import type { Route } from '../state/route.ts';
import { RouteLink, useViewState } from '../state/view-state.tsx';
import { ChoiceRow } from '../ui/choice-row.tsx';
import { EmptyState } from '../ui/empty-state.tsx';
import { Notice } from '../ui/notice.tsx';
import { Facets } from './facets.tsx';
import { FrameHits } from './frame-hits.tsx';
import { PageHits, RollHits } from './other-hits.tsx';
import { QueryBox } from './query-box.tsx';
import { SavedSearches } from './saved-searches.tsx';
import { useHits, type Hits, type ShownAs } from './use-hits.ts';
import { addTerm, count } from './find-words.ts';
import { WherePanel } from './where-panel.tsx';
import './find-view.css';

const SHOWN_AS = [
  { value: 'frames', label: 'frames' },
  { value: 'rolls', label: 'rolls' },
  { value: 'pages', label: 'pages' },
] as const;

/** Finds frames by words and fields, and shows where each one lies. */
export function FindView({ route }: { readonly route: Route }) {
  const viewState = useViewState();
  const query = route.params['words'] ?? '';
  const shownAs: ShownAs = SHOWN_AS.find(({ value }) => value === route.params['as'])?.value ?? 'frames';
  const understood = useArchive('search.understand', { query }, { keepFormer: true });
  const mistake = understood.data?.mistake ?? null;
  const hits = useHits(
    query,
    shownAs,
    understood.data !== undefined && !understood.former && mistake === null,
  );
  const error = understood.error ?? hits.error;
  const [active, setActive] = useState(0);
  const box = useRef<HTMLInputElement>(null);

  useEffect(() => {
    function press(event: KeyboardEvent): void {
      const finds = (event.ctrlKey || event.metaKey) && !event.shiftKey && event.key.toLowerCase() === 'f';
      if (!finds) return;
      event.preventDefault();
      box.current?.focus();
      box.current?.select();
    }
    window.addEventListener('keydown', press);
    return () => window.removeEventListener('keydown', press);
  }, []);

  function ask(words: string): void {
    setActive(0);
    viewState.adjust({ words: words === '' ? null : words });
  }
  const hit = shownAs === 'frames' ? (hits.hits[Math.min(active, hits.hits.length - 1)] ?? null) : null;

  return (
    <div className="find">
      <h1 className="unseen">Find</h1>
      <div className="find-head">
        <QueryBox query={query} understood={understood.data} onQuery={ask} fieldRef={box} />
      </div>
      <div className="find-line">
        <p className="find-total" role="status">
          {mistake === null && hits.first ? describeTotal(hits, shownAs) : ''}
        </p>
        <SavedSearches query={query} shownAs={shownAs} sound={mistake === null} onQuery={ask} />
        {mistake === null ? <SheetLink hits={hits} shownAs={shownAs} /> : null}
        <ChoiceRow
          label="Show as"
          options={SHOWN_AS}
          value={shownAs}
          onChange={(as) => {
            setActive(0);
            viewState.adjust({ as: as === 'frames' ? null : as });
          }}
        />
      </div>
      {error ? <Notice kind="failed" {...describeError(error)} /> : null}
      <div className="find-desk">
        <Facets facets={hits.facets} query={query} onTerm={(term) => ask(addTerm(query, term))} />
        <div className="find-hits">
          {shownAs === 'frames' ? (
            <FrameHits hits={hits} active={active} onActive={setActive} empty={<Empty query={query} />} />
          ) : null}
          {shownAs === 'rolls' ? (
            <RollHits hits={hits} active={active} onActive={setActive} empty={<Empty query={query} />} />
          ) : null}
          {shownAs === 'pages' ? (
            <PageHits hits={hits} active={active} onActive={setActive} empty={<Empty query={query} />} />
          ) : null}
        </div>
        {shownAs === 'frames' ? <WherePanel hit={hit} /> : null}
      </div>
    </div>
  );
}

function describeTotal({ first }: Hits, shownAs: ShownAs): string {
  if (!first) return '';
  if (shownAs === 'frames') return `${count(first.total, 'frame')} found`;
  return `${count(first.frames, 'frame')} on ${count(first.total, shownAs === 'rolls' ? 'roll' : 'page')}`;
}

/** The most rolls a sheet takes at once. */
const MOST_ROLLS = 500;

/** From a result to its contact sheet, once all of it is known. */
function SheetLink({ hits, shownAs }: { readonly hits: Hits; readonly shownAs: ShownAs }) {
  const found = shownAs === 'rolls' ? hits.rolls : shownAs === 'frames' ? hits.hits : [];
  const rollIds = [...new Set(found.map(({ rollId }) => rollId))];
  if (hits.hasMore || rollIds.length === 0 || rollIds.length > MOST_ROLLS) return null;
  return (
    <RouteLink to={{ view: 'sheets', params: { rolls: rollIds.join(',') } }} className="find-sheet">
      Contact sheet of {rollIds.length === 1 ? 'this roll' : `these ${rollIds.length} rolls`}
    </RouteLink>
  );
}

function Empty({ query }: { readonly query: string }) {
  return (
    <EmptyState
      says={
        query === ''
          ? 'Frames with a caption, a place, a date or a scan are found here. There are none yet.'
          : 'Nothing in the archive answers to all of this. Take one part away, or look for the beginning of a word.'
      }
    />
  );
}
