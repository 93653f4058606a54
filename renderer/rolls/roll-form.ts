import type { Given } from '../../shared/api/contract.ts';
import { parsePartialDate } from '../../shared/domain/date/partial-date.ts';

/** A new roll as it is typed. A number of null is the one that is offered. */
export interface RollForm {
  readonly number: string | null;
  readonly title: string;
  readonly stock: string;
  readonly camera: string;
  readonly filmFormat: string;
  readonly frameFormat: string;
  readonly exposures: string;
  readonly exposureIndex: string;
  readonly expires: string;
}

/** What a new roll starts with: 35 mm film, nothing known of it. */
export function emptyRollForm(): RollForm {
  return {
    number: null,
    title: '',
    stock: 'none',
    camera: 'none',
    filmFormat: '135',
    frameFormat: '24x36',
    exposures: '',
    exposureIndex: '',
    expires: '',
  };
}

export interface ReadRollForm {
  /** The roll as the engine takes it, or null while something is wrong. */
  readonly roll: Given<'rolls.add'> | null;
  /** What is wrong, by field. */
  readonly problems: { readonly [Field in 'number' | 'exposures' | 'exposureIndex']?: string };
}

/** Reads what was typed. Dates are judged by their own field and, in the end, by the engine. */
export function readRollForm(form: RollForm): ReadRollForm {
  const number = (form.number ?? '').trim();
  const exposures = readCount(form.exposures, 1000);
  const exposureIndex = readCount(form.exposureIndex, 100_000);
  const problems = {
    ...(number === '' ? { number: 'A roll needs a number.' } : {}),
    ...(exposures === undefined ? { exposures: 'A number from 1 to 1000.' } : {}),
    ...(exposureIndex === undefined ? { exposureIndex: 'A film speed such as 400.' } : {}),
  };
  const expires = form.expires.trim();
  const dateWrong = expires !== '' && !parsePartialDate(expires).ok;
  if (
    Object.keys(problems).length > 0 ||
    exposures === undefined ||
    exposureIndex === undefined ||
    dateWrong
  ) {
    return { roll: null, problems };
  }
  const title = form.title.trim();
  return {
    problems,
    roll: {
      number,
      title: title === '' ? null : title,
      stockId: readId(form.stock),
      cameraId: readId(form.camera),
      filmFormat: form.filmFormat,
      frameFormat: form.frameFormat,
      exposures,
      exposureIndex,
      expires: expires === '' ? null : expires,
    },
  };
}

/** A whole number from 1, null for nothing, undefined for anything else. */
export function readCount(text: string, most: number): number | null | undefined {
  const trimmed = text.trim();
  if (trimmed === '') return null;
  const value = /^\d+$/.test(trimmed) ? Number(trimmed) : 0;
  return value >= 1 && value <= most ? value : undefined;
}

function readId(value: string): number | null {
  const id = Number(value);
  return Number.isInteger(id) && id > 0 ? id : null;
}
