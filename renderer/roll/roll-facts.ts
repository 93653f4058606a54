import type { Given } from '../../shared/api/contract.ts';
import type { Roll } from '../../shared/api/methods/film-methods.ts';
import { parsePartialDate } from '../../shared/domain/date/partial-date.ts';
import { findFrameOnFilm, frameFormatsOn } from '../../shared/domain/film/frame-format.ts';
import { describeReason } from '../../shared/text/describe-reason.ts';
import { asSentence } from './frame-edits.ts';

/** The facts of a roll as they are typed; stock and camera by their ids, nothing as an empty text. */
export interface RollFacts {
  readonly number: string;
  readonly title: string;
  readonly stock: string;
  readonly camera: string;
  readonly filmFormat: string;
  readonly frameFormat: string;
  readonly exposures: string;
  readonly exposureIndex: string;
  readonly pushStops: string;
  readonly expires: string;
  readonly scanPolarity: Roll['scanPolarity'];
  readonly lab: string;
  readonly note: string;
}

/** The facts of a roll, to be typed over. */
export function formOfRoll(roll: Roll): RollFacts {
  return {
    number: roll.number,
    title: roll.title ?? '',
    stock: String(roll.stock?.id ?? ''),
    camera: String(roll.camera?.id ?? ''),
    filmFormat: roll.filmFormat,
    frameFormat: roll.frameFormat,
    exposures: String(roll.exposures ?? ''),
    exposureIndex: String(roll.exposureIndex ?? ''),
    pushStops: String(roll.pushStops ?? '').replace('-', '−'),
    expires: roll.expires?.typed ?? '',
    scanPolarity: roll.scanPolarity,
    lab: roll.lab ?? '',
    note: roll.note ?? '',
  };
}

type RollChange = Given<'rolls.change'>['change'];
type Problems = { -readonly [Field in keyof RollFacts]?: string };

/** What is to be changed, only the facts that differ, and what is wrong by field. */
export function changeOfRoll(roll: Roll, facts: RollFacts): { change: RollChange; problems: Problems } {
  const before = formOfRoll(roll);
  const differs = (field: keyof RollFacts) => facts[field].trim() !== before[field];
  const change: RollChange = {};
  const problems: Problems = {};
  if (differs('number')) {
    if (facts.number.trim() === '') problems.number = 'A roll needs a number.';
    else change.number = facts.number.trim();
  }
  for (const field of ['title', 'lab', 'note'] as const) {
    if (differs(field)) change[field] = orNull(facts[field]);
  }
  if (differs('stock')) change.stockId = idOrNull(facts.stock);
  if (differs('camera')) change.cameraId = idOrNull(facts.camera);
  if (differs('scanPolarity')) change.scanPolarity = facts.scanPolarity;
  if (differs('filmFormat')) change.filmFormat = facts.filmFormat;
  const frameFormat = findFrameOnFilm(facts.frameFormat, facts.filmFormat)
    ? facts.frameFormat
    : (frameFormatsOn(facts.filmFormat)[0]?.id ?? facts.frameFormat);
  if (frameFormat !== roll.frameFormat) change.frameFormat = frameFormat;
  for (const [field, most] of [
    ['exposures', 1000],
    ['exposureIndex', 100_000],
  ] as const) {
    if (!differs(field)) continue;
    const value = readNumber(facts[field]);
    if (value !== null && !(Number.isInteger(value) && value >= 1 && value <= most)) {
      problems[field] = `A whole number from 1 to ${most}.`;
    } else change[field] = value;
  }
  if (differs('pushStops')) {
    const stops = readNumber(facts.pushStops);
    if (stops !== null && !(Math.abs(stops) <= 5)) problems.pushStops = 'Stops from −5 to 5.';
    else change.pushStops = stops;
  }
  if (differs('expires')) {
    const typed = orNull(facts.expires);
    const date = typed === null ? null : parsePartialDate(typed);
    if (date?.ok === false) problems.expires = asSentence(describeReason(date.reason));
    else change.expires = typed;
  }
  return { change, problems };
}

function orNull(text: string): string | null {
  const trimmed = text.trim();
  return trimmed === '' ? null : trimmed;
}

function idOrNull(text: string): number | null {
  return text === '' ? null : Number(text);
}

/** A number with a point or a comma and any minus; null for nothing, NaN for anything else. */
function readNumber(text: string): number | null {
  const trimmed = text.trim().replace('−', '-').replace(',', '.');
  return trimmed === '' ? null : Number(trimmed);
}
