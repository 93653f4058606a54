import { formatDuration, parseDuration } from '../../units/duration.ts';
import { accept, refuse, type Checked } from '../checked.ts';
import type { ExtensionRule } from './extension.ts';
import type { PushTable } from './push-pull.ts';
import type { Source } from './source.ts';
import type { TimePoint } from './time-at-temperature.ts';
import { shown } from './working.ts';

/** A table or a rule as it is typed that cannot be read. */
type RuleTextRefusal = 'not_readable';

const NUMBER = /^[-+]?\d+(?:\.\d+)?$/;

/** The parts of a list, `a, b; c`; a decimal point is a point here, since the comma parts. */
function partsOf(text: string): readonly string[] {
  return text
    .replaceAll('−', '-')
    .split(/[,;]/)
    .map((part) => part.trim())
    .filter((part) => part !== '');
}

function readNumber(text: string | undefined): number | null {
  const tidy = text?.trim() ?? '';
  return NUMBER.test(tidy) ? Number(tidy) : null;
}

/** All of them, or null when one is. */
function allOf<Value>(values: readonly (Value | null)[]): readonly Value[] | null {
  const read = values.flatMap((value) => value ?? []);
  return read.length === values.length ? read : null;
}

/** Rows of a time table, `13:00@25, 8:00@30` (°C); nothing gives no row. */
export function parseTimePoints(
  text: string,
  source: Source,
): Checked<readonly TimePoint[], RuleTextRefusal> {
  const rows = partsOf(text).map((part) => {
    const [time = '', temperature, ...more] = part.split('@');
    const seconds = parseDuration(time);
    const celsius = readNumber(temperature);
    return seconds === null || celsius === null || more.length > 0 ? null : { seconds, celsius, source };
  });
  const read = allOf(rows);
  return read === null ? refuse('not_readable') : accept(read);
}

/** Rows of a time table as they are typed: `13:00@25, 8:00@30`. */
export function formatTimePoints(points: readonly Pick<TimePoint, 'seconds' | 'celsius'>[]): string {
  return points.map(({ seconds, celsius }) => `${formatDuration(seconds)}@${shown(celsius)}`).join(', ');
}

type PushRow = { readonly kind: PushTable['kind']; readonly stops: number; readonly value: number };

/** One row: `+1=0:30`, `-1=-0:30`, `1=x1.4`. */
function readPushRow(part: string): PushRow | null {
  const [shift, change = '', ...more] = part.split('=').map((each) => each.trim());
  const stops = readNumber(shift);
  if (stops === null || more.length > 0) return null;
  const factor = /^[x×*]\s*(.+)$/.exec(change)?.[1];
  if (factor !== undefined) {
    const value = readNumber(factor);
    return value === null ? null : { kind: 'factor', stops, value };
  }
  const sign = change.startsWith('-') ? -1 : 1;
  const seconds = parseDuration(change.replace(/^[-+]\s*/, ''));
  return seconds === null ? null : { kind: 'seconds', stops, value: sign * seconds };
}

/** A table of push and pull, `-1=-0:30, 1=0:30` in time or `-1=x0.8, 1=x1.4` in factors; null for nothing. */
export function parsePushTable(text: string, source: Source): Checked<PushTable | null, RuleTextRefusal> {
  const read = allOf(partsOf(text).map(readPushRow));
  if (read === null) return refuse('not_readable');
  const [first] = read;
  if (first === undefined) return accept(null);
  const { kind } = first;
  if (read.some((row) => row.kind !== kind)) return refuse('not_readable');
  return accept({ kind, rows: read.map(({ stops, value }) => ({ stops, value })), source });
}

/** A table of push and pull as it is typed. */
export function formatPushTable(table: Pick<PushTable, 'kind' | 'rows'> | null): string {
  if (table === null) return '';
  return table.rows
    .map(({ stops, value }) => {
      const change = table.kind === 'factor' ? `x${shown(value, 3)}` : formatDuration(value);
      return `${shown(stops)}=${change.replace('−', '-')}`;
    })
    .join(', ');
}

/** A rule for added time: `2%` for every roll before, or `1=3:15, 5=3:30` from a roll on; null for nothing or `none`. */
export function parseExtension(text: string, source: Source): Checked<ExtensionRule | null, RuleTextRefusal> {
  const tidy = text.trim();
  if (tidy === '' || tidy === 'none') return accept(null);
  const percent = /^(\d+(?:[.,]\d+)?)\s*%$/.exec(tidy)?.[1];
  if (percent !== undefined) {
    return accept({ kind: 'percent', percentPerRoll: Number(percent.replace(',', '.')), source });
  }
  const rows = partsOf(tidy).map((part) => {
    const [from, time = '', ...more] = part.split('=');
    const fromRoll = readNumber(from);
    const seconds = parseDuration(time);
    const isRow = fromRoll !== null && Number.isInteger(fromRoll) && seconds !== null && more.length === 0;
    return isRow ? { fromRoll, seconds } : null;
  });
  const read = allOf(rows);
  return read === null || read.length === 0
    ? refuse('not_readable')
    : accept({ kind: 'steps', rows: read, source });
}

/** A rule for added time as it is typed. */
export function formatExtension(rule: ExtensionRule | null): string {
  if (rule === null) return '';
  if (rule.kind === 'percent') return `${shown(rule.percentPerRoll)}%`;
  return rule.rows.map(({ fromRoll, seconds }) => `${fromRoll}=${formatDuration(seconds)}`).join(', ');
}
