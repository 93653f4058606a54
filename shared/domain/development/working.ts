import { formatDuration } from '../../units/duration.ts';
import type { Checked } from '../checked.ts';
import type { Source } from './source.ts';

/** What the value of a line is counted in; an empty unit is a plain ratio. */
type WorkingUnit = 's' | '°C' | '1/min' | 'ml' | 'cm²' | 'rolls' | 'mg' | 'g/l' | 'days' | '%' | '';

/** One line of a sum: what it is, how it is got, what comes out, and on whose word. */
export type WorkingLine = {
  readonly label: string;
  readonly formula: string;
  readonly value: number;
  readonly unit: WorkingUnit;
  readonly source: Source;
};

/** A result with the sum that led to it, line by line. */
export type Worked<Value> = { readonly value: Value; readonly lines: readonly WorkingLine[] };

/** What a sum answers: the worked value, or the one reason why there is none. */
export type WorkedOrNot<Value, Reason extends string> = Checked<Worked<Value>, Reason>;

/** A number as it stands in a formula: at most `places` decimals, without trailing noughts. */
export function shown(value: number, places = 2): string {
  return String(Number(value.toFixed(places)));
}

/** A time as it stands in a formula, seconds ≥ 0: `3:15`, with tenths where it is not whole, `3:30.6`. */
export function shownTime(seconds: number): string {
  const tenths = Math.round(seconds * 10);
  const whole = formatDuration(Math.floor(tenths / 10));
  return tenths % 10 === 0 ? whole : `${whole}.${tenths % 10}`;
}
