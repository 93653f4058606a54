import { useEffect, useRef, useState } from 'react';
import type { Filter } from '../../shared/domain/search/filters.ts';
import { describeError } from '../../shared/text/describe-error.ts';
import { useArchive } from '../api/use-query.ts';
import { useRemembered } from '../state/remembered.ts';
import type { Route } from '../state/route.ts';
import { RouteLink, useViewState } from '../state/view-state.tsx';
import { Button } from '../ui/button.tsx';
import { ChoiceRow } from '../ui/choice-row.tsx';
import { EmptyState } from '../ui/empty-state.tsx';
import { Notice } from '../ui/notice.tsx';
import { Builder } from './builder.tsx';
import { Facets } from './facets.tsx';
import { FrameHits } from './frame-hits.tsx';
import { PageHits, RollHits } from './other-hits.tsx';
import { QueryBox } from './query-box.tsx';
import { SavedSearches } from './saved-searches.tsx';
import { useHits, type Hits, type ShownAs } from './use-hits.ts';
import { count } from './find-words.ts';
import { termsOf, textOfFilters, toggleTerm, useSearch } from './use-search.ts';
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
  const search = useSearch(query);
  const { mistake, filters } = search;
  const understood = useArchive(
    'search.understand',
    { query },
    { when: mistake === null && query !== '', keepFormer: true },
  );
  const hits = useHits(query, shownAs, mistake === null);
  const error = understood.error ?? hits.error;
  const [filtersOpen, setFiltersOpen] = useRemembered<Open>('find.filters', 'open', parseOpen);
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
  const askFilters = (next: readonly Filter[]) => ask(textOfFilters(next));
  const hit = shownAs === 'frames' ? (hits.hits[Math.min(active, hits.hits.length - 1)] ?? null) : null;

  return (
    <div className="find">
      <h1 className="unseen">Find</h1>
      <div className="find-head">
        <QueryBox
          query={query}
          search={search}
          unknownNames={mistake === null && !understood.former ? (understood.data?.unknownNames ?? []) : []}
          onQuery={ask}
          onFilters={askFilters}
          fieldRef={box}
        />
      </div>
      <div className="find-line">
        <Button
          pressed={filtersOpen === 'open'}
          onPress={() => setFiltersOpen(filtersOpen === 'open' ? 'shut' : 'open')}
        >
          Filters
        </Button>
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
      <div className={filtersOpen === 'open' ? 'find-desk' : 'find-desk find-desk-wide'}>
        {filtersOpen === 'open' ? (
          <div className="find-side">
            <Builder filters={filters} onFilters={askFilters} waiting={mistake !== null} />
            <Facets
              facets={hits.facets}
              asked={termsOf(filters)}
              onTerm={(term, on) => askFilters(toggleTerm(filters, term, on))}
            />
          </div>
        ) : null}
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

type Open = 'open' | 'shut';

function parseOpen(text: string): Open | null {
  return text === 'open' || text === 'shut' ? text : null;
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
