import type { Ref } from 'react';
import type { Output } from '../../shared/api/contract.ts';
import { Button } from '../ui/button.tsx';
import { removePart } from './find-words.ts';

export interface QueryBoxProps {
  readonly query: string;
  readonly understood: Output<'search.understand'> | undefined;
  readonly onQuery: (query: string) => void;
  readonly fieldRef: Ref<HTMLInputElement>;
}

/** The one box for words and fields; beneath it how it is read, part by part, and what is wrong with it. */
export function QueryBox({ query, understood, onQuery, fieldRef }: QueryBoxProps) {
  const mistake = understood?.mistake ?? null;
  return (
    <div className="query" role="search">
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
      />
      <div id="query-reading" className="query-reading">
        {mistake ? <MistakeWords query={query} mistake={mistake} onQuery={onQuery} /> : null}
        {mistake === null
          ? (understood?.filters ?? []).map(({ text, words }) => (
              <span key={text} className="query-part">
                {words}
                <button
                  type="button"
                  className="query-remove"
                  aria-label={`Take away: ${words}`}
                  onClick={() => onQuery(removePart(query, text))}
                >
                  ×
                </button>
              </span>
            ))
          : null}
        {(understood?.unknownNames ?? []).map(({ field, name, suggestion }) => (
          <span key={`${field} ${name}`} className="query-unknown">
            no {field} “{name}” in the archive
            {suggestion === null ? null : (
              <Button look="quiet" onPress={() => onQuery(query.replace(name, () => quoteName(suggestion)))}>
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

/** A name of several words goes into the box in quotation marks. */
function quoteName(name: string): string {
  return /\s/.test(name) ? `"${name}"` : name;
}

interface MistakeWordsProps {
  readonly query: string;
  readonly mistake: { at: number; length: number; reason: string; suggestion: string | null };
  readonly onQuery: (query: string) => void;
}

function MistakeWords({ query, mistake, onQuery }: MistakeWordsProps) {
  const { at, length, reason, suggestion } = mistake;
  const part = query.slice(at, at + length);
  return (
    <span className="query-mistake" role="alert">
      {part.trim() === '' ? '' : <span className="query-wrong">{part}</span>} {reason}
      {suggestion === null ? null : (
        <Button
          look="quiet"
          onPress={() => onQuery(`${query.slice(0, at)}${suggestion}${query.slice(at + length)}`)}
        >
          {suggestion}?
        </Button>
      )}
    </span>
  );
}
