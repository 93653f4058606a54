import { useLayoutEffect, useRef, type Ref } from 'react';
import type { Output } from '../../shared/api/contract.ts';
import { type Filter, treeOfFilter } from '../../shared/domain/search/filters.ts';
import type { SearchMistake } from '../../shared/domain/search/search-tree.ts';
import { describeSearch, describeSearchMistake } from '../../shared/text/describe-search.ts';
import { Button } from '../ui/button.tsx';
import type { ReadSearch } from './use-search.ts';

type UnknownName = Output<'search.understand'>['unknownNames'][number];

export interface QueryBoxProps {
  readonly query: string;
  readonly search: ReadSearch;
  /** Names that the archive does not have. */
  readonly unknownNames: readonly UnknownName[];
  readonly onQuery: (query: string) => void;
  readonly onFilters: (filters: readonly Filter[]) => void;
  readonly fieldRef: Ref<HTMLInputElement>;
}

/** The one box for words and fields; beneath it how it is read, part by part, and what is wrong with it. */
export function QueryBox({ query, search, unknownNames, onQuery, onFilters, fieldRef }: QueryBoxProps) {
  const { mistake, filters } = search;
  const marks = useRef<HTMLDivElement>(null);
  const follow = (scrolledPx: number) => {
    if (marks.current) marks.current.scrollLeft = scrolledPx;
  };
  return (
    <div className="query" role="search">
      <div className="query-line">
        <input
          ref={fieldRef}
          type="text"
          aria-label="Find frames"
          aria-describedby="query-reading"
          aria-invalid={mistake === null ? undefined : true}
          className="query-field"
          placeholder="Words, or fields such as stock:fenn date:2022..2024"
          autoComplete="off"
          spellCheck={false}
          // The box is what this view is for.
          // oxlint-disable-next-line jsx-a11y/no-autofocus
          autoFocus
          value={query}
          onChange={(event) => onQuery(event.currentTarget.value)}
          onScroll={(event) => follow(event.currentTarget.scrollLeft)}
        />
        {mistake === null ? null : <MarkInBox query={query} mistake={mistake} marks={marks} />}
      </div>
      <div id="query-reading" className="query-reading">
        {mistake === null ? (
          filters.map((filter, index) => {
            const words = describeSearch(treeOfFilter(filter));
            return (
              // Parts of a search are only their places.
              // oxlint-disable-next-line react/no-array-index-key
              <span key={`${index} ${words}`} className="query-part">
                {words}
                <button
                  type="button"
                  className="query-remove"
                  aria-label={`Take away: ${words}`}
                  onClick={() => onFilters(filters.filter((_, at) => at !== index))}
                >
                  ×
                </button>
              </span>
            );
          })
        ) : (
          <MistakeWords query={query} mistake={mistake} onQuery={onQuery} />
        )}
        {unknownNames.map(({ field, name, suggestion }) => (
          <span key={`${field} ${name}`} className="query-unknown">
            no {field} “{name}” in the archive
            {suggestion === null ? null : (
              <Button
                look="quiet"
                onPress={() => onFilters(filters.map((each) => renamed(each, name, suggestion)))}
              >
                {suggestion}?
              </Button>
            )}
          </span>
        ))}
        {query === '' ? (
          <span className="query-hint">
            Every word must begin a word of the frame, its roll or its outing. “Quotes” keep words together.
          </span>
        ) : null}
      </div>
    </div>
  );
}

/** A filter with another name in place of one that is not there; a name of several words is meant as a whole. */
function renamed(filter: Filter, name: string, instead: string): Filter {
  if (filter.kind === 'any') {
    const parts = filter.parts.map((part) => renamed(part, name, instead));
    return { ...filter, parts: parts.filter((part) => part.kind === 'words' || part.kind === 'field') };
  }
  if (filter.kind !== 'field') return filter;
  return {
    ...filter,
    values: filter.values.map((value) =>
      value.kind === 'text' && value.text === name ? { ...value, text: instead, whole: true } : value,
    ),
  };
}

interface MarkInBoxProps {
  readonly query: string;
  readonly mistake: SearchMistake;
  readonly marks: Ref<HTMLDivElement>;
}

/** Points at the mistake within the box: the same text over it, unseen but for the line under what is wrong. */
function MarkInBox({ query, mistake, marks }: MarkInBoxProps) {
  const here = useRef<HTMLSpanElement>(null);
  // A box that is scrolled when the mistake is made has told so before there was anything to move.
  useLayoutEffect(() => {
    const line = here.current?.parentElement;
    const field = line?.previousElementSibling;
    if (line && field) line.scrollLeft = field.scrollLeft;
  });
  const end = mistake.at + mistake.length;
  return (
    <div ref={marks} className="query-marks" aria-hidden="true">
      <span ref={here}>{query.slice(0, mistake.at)}</span>
      <span className="query-marked">{query.slice(mistake.at, end) || '\u00a0'}</span>
      <span>{query.slice(end)}</span>
    </div>
  );
}

interface MistakeWordsProps {
  readonly query: string;
  readonly mistake: SearchMistake;
  readonly onQuery: (query: string) => void;
}

function MistakeWords({ query, mistake, onQuery }: MistakeWordsProps) {
  const { at, length, reason, suggestion } = mistake;
  const part = query.slice(at, at + length);
  return (
    <span className="query-mistake" role="alert">
      {part.trim() === '' ? '' : <span className="query-wrong">{part}</span>} {describeSearchMistake(reason)}
      {suggestion === null ? null : (
        <Button
          look="quiet"
          onPress={() => onQuery(`${query.slice(0, at)}${suggestion}${query.slice(at + length)}`)}
        >
          {suggestion === '' ? 'take it away' : `${suggestion}?`}
        </Button>
      )}
    </span>
  );
}
