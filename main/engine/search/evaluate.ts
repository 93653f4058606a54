import { parsePartialDate } from '../../../shared/domain/date/partial-date.ts';
import { compareNatural } from '../../../shared/domain/numbering/natural-order.ts';
import type { FieldName } from '../../../shared/domain/search/search-fields.ts';
import { type FieldValue, joinParts, type SearchTree } from '../../../shared/domain/search/search-tree.ts';
import { foldWords, hasWords } from '../../../shared/domain/search/word-match.ts';
import { matchQuery, searchText } from '../../../shared/domain/text/search-text.ts';
import type { ReadableDb } from '../db/query.ts';
import { type FrameColumns, OPEN_END, OPEN_START } from './frame-columns.ts';
import { FrameSet } from './frame-set.ts';
import type { RollFact } from './roll-facts.ts';
import {
  CHOICE_TERMS,
  DATE_TERMS,
  NUMBER_TERMS,
  TEXT_TERMS,
  type TermSql,
  THING_TERMS,
  wordsSql,
} from './term-sql.ts';

/** What a search is answered from: the database, with its words read, and the fresh columns. */
export interface Searched {
  readonly db: ReadableDb;
  readonly columns: FrameColumns;
}

/** The frames for which `tree` holds. */
function evaluate(on: Searched, tree: SearchTree): FrameSet {
  const { columns } = on;
  switch (tree.kind) {
    case 'everything':
      return columns.all.copy();
    case 'word':
    case 'phrase':
      return wordsOf(on, [tree]);
    case 'field':
      return tree.values
        .map((value) => valueOf(on, tree.field, value))
        .reduce((found, more) => found.join(more))
        .cut(columns.all);
    case 'not':
      return columns.all.copy().drop(evaluate(on, tree.part));
    case 'any':
      return tree.parts.map((part) => evaluate(on, part)).reduce((found, more) => found.join(more));
    case 'all': {
      // The index itself is quickest at finding several words in one frame.
      const words = tree.parts.filter((part) => part.kind === 'word' || part.kind === 'phrase');
      const others = tree.parts.filter((part) => part.kind !== 'word' && part.kind !== 'phrase');
      const sets = others.map((part) => evaluate(on, part));
      if (words.length > 0) sets.push(wordsOf(on, words));
      return sets.reduce((found, more) => found.cut(more));
    }
  }
}

type Words = Extract<SearchTree, { kind: 'word' | 'phrase' }>;

function wordsOf(on: Searched, words: readonly Words[]): FrameSet {
  const text = words.map((each) => (each.kind === 'word' ? each.text : `"${each.text}"`)).join(' ');
  const match = matchQuery(text);
  return match === null ? on.columns.all.copy() : run(on, wordsSql(match)).cut(on.columns.all);
}

/** A frame's words in one column of the index. */
function inColumn(on: Searched, column: 'caption' | 'place' | 'notes', value: FieldValue): FrameSet {
  if (value.kind !== 'text') return nothing(on);
  const term = searchText(value.text).replaceAll('"', ' ');
  return run(on, wordsSql(`${column} : "${term}"${value.whole ? '' : ' *'}`));
}

function nothing({ columns }: Searched): FrameSet {
  return new FrameSet(columns.all.words.length * 32);
}

/** Runs a term. Ids come as one text, which the binding carries over many times faster than row by row. */
function run(on: Searched, { of, sql, values }: TermSql): FrameSet {
  const ids = on.db
    .prepare<[typeof values], string | null>(`WITH found (id) AS (${sql}) SELECT group_concat(id) FROM found`)
    .pluck()
    .get(values);
  return of === 'frames' ? readIds(nothing(on), ids ?? '') : framesOfRolls(on, readRollIds(on, ids ?? ''));
}

function eachId(ids: string, visit: (id: number) => void): void {
  if (ids === '') return;
  let id = 0;
  for (let at = 0; at < ids.length; at += 1) {
    const digit = ids.charCodeAt(at) - 48;
    // A comma, the only other sign, lies below the digits.
    if (digit >= 0) {
      id = id * 10 + digit;
      continue;
    }
    visit(id);
    id = 0;
  }
  visit(id);
}

function readIds(found: FrameSet, ids: string): FrameSet {
  eachId(ids, (id) => found.add(id));
  return found;
}

function readRollIds({ columns }: Searched, ids: string): Uint8Array {
  const chosen = new Uint8Array(columns.rolls.rankOf.length);
  eachId(ids, (id) => {
    chosen[id] = 1;
  });
  return chosen;
}

/** The frames of the rolls whose place in `chosen` (by roll id) is 1. */
function framesOfRolls(on: Searched, chosen: Uint8Array): FrameSet {
  const found = nothing(on);
  const { rollOf } = on.columns;
  for (let id = 1; id < rollOf.length; id += 1) if (chosen[rollOf[id] ?? 0] === 1) found.add(id);
  return found;
}

function rollsWhere(on: Searched, holds: (roll: RollFact) => boolean): FrameSet {
  const chosen = new Uint8Array(on.columns.rolls.rankOf.length);
  for (const roll of on.columns.rolls.ordered) if (holds(roll)) chosen[roll.id] = 1;
  return framesOfRolls(on, chosen);
}

/** The outing of a frame: its own, else the only one of its whole roll; 0 for none. */
export function outingOf({ outingOf: own, rollOf, rolls }: FrameColumns, id: number): number {
  const outing = own[id] ?? 0;
  if (outing !== 0) return outing;
  return rolls.ordered[(rolls.rankOf[rollOf[id] ?? 0] ?? 0) - 1]?.outing ?? 0;
}

/** First and last day on which a frame was made, of its own date or of its outing's; zeros when none is known. */
export function spanOf(columns: FrameColumns, id: number, span: { first: number; last: number }): void {
  span.first = columns.earliest[id] ?? 0;
  span.last = columns.latest[id] ?? 0;
  if (span.first !== 0) return;
  const own = columns.outingOf[id] ?? 0;
  const roll = columns.rollOf[id] ?? 0;
  const outing = own === 0 ? null : columns.rolls.outings.get(own);
  span.first = outing ? outing.earliest : (columns.rolls.firstOf[roll] ?? 0);
  span.last = outing ? outing.latest : (columns.rolls.lastOf[roll] ?? 0);
}

function framesWhere(on: Searched, holds: (id: number) => boolean): FrameSet {
  const found = nothing(on);
  on.columns.all.each((id) => {
    if (holds(id)) found.add(id);
  });
  return found;
}

function valueOf(on: Searched, field: FieldName, value: FieldValue): FrameSet {
  switch (value.kind) {
    case 'text':
      return textOf(on, field, value);
    case 'between':
      return rollsWhere(
        on,
        ({ number }) =>
          (value.from === null || compareNatural(number, value.from) >= 0) &&
          (value.to === null || compareNatural(number, value.to) <= 0),
      );
    case 'number':
      if (field === 'age') return agedBetween(on, value.from, value.to);
      return isKey(NUMBER_TERMS, field) ? run(on, NUMBER_TERMS[field](value)) : nothing(on);
    case 'date':
      return dateOf(on, field, value);
    case 'choice':
      return choiceOf(on, field, value.choice);
  }
}

function isKey<Table extends object>(table: Table, key: PropertyKey): key is keyof Table {
  return Object.hasOwn(table, key);
}

type TextValue = Extract<FieldValue, { kind: 'text' }>;

function textOf(on: Searched, field: FieldName, value: TextValue): FrameSet {
  const sought = foldWords(value.text);
  const holds = (text: string) => hasWords(foldWords(text), sought, value.whole);
  if (field === 'caption' || field === 'place') return inColumn(on, field, value);
  if (field === 'note') return inColumn(on, 'notes', value);
  if (field === 'number') return rollsWhere(on, (roll) => holds(roll.number));
  if (field === 'outing') {
    const chosen = new Set(
      [...on.columns.rolls.outings].flatMap(([id, { title }]) => (holds(title) ? [id] : [])),
    );
    return framesWhere(on, (id) => chosen.has(outingOf(on.columns, id)));
  }
  if (!isKey(TEXT_TERMS, field)) return nothing(on);
  const { texts, found } = TEXT_TERMS[field];
  const isMeant = field === 'frame' ? (text: string) => foldWords(text) === sought : holds;
  const names = on.db.prepare<[], string>(texts).pluck().all().filter(isMeant);
  return run(on, { ...found, values: { names: JSON.stringify(names) } });
}

type DateValue = Extract<FieldValue, { kind: 'date' }>;

/** The span of days that a date term asks for, as YYYY-MM-DD; open ends as far away as texts go. */
function spanAsked({ from, to }: DateValue): { readonly from: string; readonly to: string } {
  const first = from === null ? null : parsePartialDate(from);
  const last = to === null ? null : parsePartialDate(to);
  return {
    from: (first?.ok ? first.value.earliest : null) ?? '0000-00-00',
    to: (last?.ok ? last.value.latest : null) ?? '9999-99-99',
  };
}

const dayNumber = (day: string) => Number(day.replaceAll('-', ''));

function dateOf(on: Searched, field: FieldName, value: DateValue): FrameSet {
  const asked = spanAsked(value);
  if (isKey(DATE_TERMS, field)) return run(on, DATE_TERMS[field](asked));
  return framesBetween(on, dayNumber(asked.from), dayNumber(asked.to));
}

/** The frames whose date, however vague, touches the days from `from` to `to` (19980712). */
export function framesBetween(on: Searched, from: number, to: number): FrameSet {
  const span = { first: 0, last: 0 };
  return framesWhere(on, (id) => {
    spanOf(on.columns, id, span);
    return span.first !== 0 && span.first <= to && span.last >= from;
  });
}

/** Whole years from one day to another (19980712); less than 0 when `to` is before. */
function wholeYears(from: number, to: number): number {
  const years = Math.floor(to / 10_000) - Math.floor(from / 10_000);
  return to % 10_000 < from % 10_000 ? years - 1 : years;
}

/** Frames made so many whole years past the expiry of their film, for any reading of either vague date. */
function agedBetween(on: Searched, from: number | null, to: number | null): FrameSet {
  const { columns } = on;
  const { ordered, rankOf } = columns.rolls;
  const span = { first: 0, last: 0 };
  return framesWhere(on, (id) => {
    const roll = ordered[(rankOf[columns.rollOf[id] ?? 0] ?? 0) - 1];
    if (roll === undefined || roll.expiresEarliest === 0) return false;
    spanOf(columns, id, span);
    if (span.first === 0) return false;
    const youngest =
      span.first === OPEN_START || roll.expiresLatest === OPEN_END
        ? Number.NEGATIVE_INFINITY
        : wholeYears(roll.expiresLatest, span.first);
    const oldest =
      span.last === OPEN_END || roll.expiresEarliest === OPEN_START
        ? Number.POSITIVE_INFINITY
        : wholeYears(roll.expiresEarliest, span.last);
    return (from === null || oldest >= from) && (to === null || youngest <= to);
  });
}

function choiceOf(on: Searched, field: FieldName, choice: string): FrameSet {
  if (field === 'no') return on.columns.all.copy().drop(thingOf(on, choice));
  if (field === 'has') return thingOf(on, choice);
  if (field === 'process') return rollsWhere(on, (roll) => roll.process === choice);
  return isKey(CHOICE_TERMS, field) ? run(on, CHOICE_TERMS[field](choice)) : nothing(on);
}

function thingOf(on: Searched, thing: string): FrameSet {
  const { columns } = on;
  if (isKey(THING_TERMS, thing)) return run(on, THING_TERMS[thing]);
  if (thing === 'outing') return framesWhere(on, (id) => outingOf(columns, id) !== 0);
  if (thing === 'date') return framesBetween(on, OPEN_START, OPEN_END);
  if (thing === 'place') {
    return framesWhere(
      on,
      (id) =>
        columns.placeOf[id] !== 0 ||
        (columns.rolls.outings.get(outingOf(columns, id))?.place ?? null) !== null,
    );
  }
  return nothing(on);
}

/** The frames for which `tree` holds, of one camera or one stock or between two days where those are given. */
export function findFrameSet(
  on: Searched,
  tree: SearchTree,
  also: {
    readonly cameraId?: number | undefined;
    readonly stockId?: number | undefined;
    readonly from?: string | null | undefined;
    readonly to?: string | null | undefined;
  } = {},
): FrameSet {
  const found = evaluate(on, joinParts('all', tree.kind === 'everything' ? [] : [tree]));
  const { cameraId, stockId, from, to } = also;
  if (cameraId !== undefined) found.cut(rollsWhere(on, (roll) => roll.camera === cameraId));
  if (stockId !== undefined) found.cut(rollsWhere(on, (roll) => roll.stock === stockId));
  if (from || to) found.cut(framesBetween(on, from ? dayNumber(from) : 0, to ? dayNumber(to) : OPEN_END));
  return found;
}
