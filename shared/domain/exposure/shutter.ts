import type { Checked } from '../checked.ts';
import { accept, refuse } from '../checked.ts';

/** An exposure time as marked; `bulb` and `time` are open as long as somebody says, how long is not known. */
export type Shutter =
  { readonly kind: 'seconds'; readonly seconds: number } | { readonly kind: 'bulb' | 'time' };

/** Why a text is no exposure time. `shutter_unit_missing`: `125` could be seconds or the dial's 1/125. */
export type ShutterReason = 'shutter_unreadable' | 'shutter_unit_missing' | 'shutter_out_of_range';

/** Longest exposure, seconds: a day. Shortest: 1/100000. Our choice. */
const LIMITS = { least: 1e-5, most: 86_400 } as const;

const FRACTION = /^1\s*\/\s*(?<part>\d+(?:[.,]\d+)?)\s*(?:s|sec|")?$/i;
const SECONDS = /^(?<seconds>\d*[.,]?\d+)\s*(?<unit>s|sec|seconds?|["″])?$/i;
const MINUTES =
  /^(?<minutes>\d+(?:[.,]\d+)?)\s*(?:m|min|minutes?|['′])\s*(?:(?<seconds>\d+(?:[.,]\d+)?)\s*(?:s|sec|["″])?)?$/i;

function toNumber(digits: string | undefined): number {
  return Number((digits ?? '0').replace(',', '.'));
}

function checkSeconds(seconds: number): Checked<Shutter, ShutterReason> {
  return seconds >= LIMITS.least && seconds <= LIMITS.most
    ? accept({ kind: 'seconds', seconds })
    : refuse('shutter_out_of_range');
}

/** Reads an exposure time: `1/500`, `0.5s`, `30"`, `1 min 30 s`, `B`, `T`. A bare whole number is not guessed at. */
export function parseShutter(text: string): Checked<Shutter, ShutterReason> {
  const trimmed = text.trim();
  if (/^(?:b|bulb)$/i.test(trimmed)) return accept({ kind: 'bulb' });
  if (/^(?:t|time)$/i.test(trimmed)) return accept({ kind: 'time' });
  const part = FRACTION.exec(trimmed)?.groups?.['part'];
  if (part !== undefined) return checkSeconds(1 / toNumber(part));
  const minutes = MINUTES.exec(trimmed)?.groups;
  if (minutes) return checkSeconds(toNumber(minutes['minutes']) * 60 + toNumber(minutes['seconds']));
  const plain = SECONDS.exec(trimmed)?.groups;
  if (!plain) return refuse('shutter_unreadable');
  const seconds = toNumber(plain['seconds']);
  if (plain['unit'] === undefined && seconds >= 1) return refuse('shutter_unit_missing');
  return checkSeconds(seconds);
}

/** The nearest number with `digits` significant digits, as text. */
function significant(value: number, digits: number): string {
  return String(Number(value.toPrecision(digits)));
}

/**
 * An exposure time as it is marked: `1/500`, `1/2`, `0.7 s`, `30 s`, `B`, `T`. A fraction where the time is one over a
 * whole number (to 1 %), or shorter than 0.3 s.
 */
export function formatShutter(shutter: Shutter): string {
  if (shutter.kind !== 'seconds') return shutter.kind === 'bulb' ? 'B' : 'T';
  const part = 1 / shutter.seconds;
  const whole = Math.round(part);
  if (whole >= 2 && Math.abs(part / whole - 1) < 0.01) return `1/${String(whole)}`;
  if (shutter.seconds < 0.3) return `1/${significant(part, 3)}`;
  return `${significant(shutter.seconds, 4)} s`;
}
