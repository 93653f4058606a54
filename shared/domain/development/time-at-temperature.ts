import { accept, refuse } from '../checked.ts';
import type { Source } from './source.ts';
import { arithmetic, ruleOfThumb } from './source.ts';
import type { WorkedOrNot, WorkingLine } from './working.ts';
import { shown, shownTime } from './working.ts';

/** One row of a maker's table: so many seconds at so many °C. */
export type TimePoint = { readonly celsius: number; readonly seconds: number; readonly source: Source };

/**
 * How a step's time depends on temperature. `points`: two or more rows of a table, rising in temperature and
 * falling in time. `estimate`: one row and a rule of thumb, for black-and-white only. `fixed`: one row that
 * holds within its tolerance and nowhere else.
 */
export type TimeCurve =
  | { readonly kind: 'points'; readonly points: readonly TimePoint[] }
  | { readonly kind: 'estimate'; readonly point: TimePoint }
  | {
      readonly kind: 'fixed';
      readonly point: TimePoint;
      readonly lowC: number;
      readonly highC: number;
    };

/** Why there is no time for a temperature. */
export type TimeRefusal = 'temperature_not_real' | 'below_range' | 'above_range' | 'outside_tolerance';

/**
 * Change of ln(time) per °C in the black-and-white estimate.
 * Source: from memory, a maker's chart (4 min at 20 °C = 3 min at 23 °C = 6 min at 16 °C), which it meets within
 * 3 s. Published tables give 0.06 to 0.11 depending on film and developer (Kodak F-32), hence an estimate.
 */
const ESTIMATE_PER_DEGREE = 0.1;

/** The estimate is only offered where the chart behind it reached, in °C. */
const ESTIMATE_LOW_C = 16;
/** See `ESTIMATE_LOW_C`. */
const ESTIMATE_HIGH_C = 24;

/** Readings of a thermometer are kept to 0.01 °C at best, so a table's end is met within this. */
const SAME_TEMPERATURE_C = 1e-6;

const INTERPOLATED = arithmetic(
  'ln(time) is linear in temperature between two rows; against Kodak F-32 within 0.13 min',
);
const ESTIMATED = ruleOfThumb(
  'ESTIMATE: ln(time) falls by 0.1 per °C, for black-and-white; a row of your maker’s table is better',
);

/**
 * The rows of a table together with the step's own time, coldest first. A row that says the same as the step is
 * named once; one that contradicts it stays and makes the list not fall.
 */
export function joinTimePoints(points: readonly TimePoint[], own: TimePoint | null): readonly TimePoint[] {
  const known =
    own === null || points.some((point) => point.celsius === own.celsius && point.seconds === own.seconds);
  const all = known || own === null ? points : [...points, own];
  return all.toSorted((a, b) => a.celsius - b.celsius);
}

/** The lowest and highest temperature a curve answers for, in °C. */
export function curveRange(curve: TimeCurve): { readonly lowC: number; readonly highC: number } {
  if (curve.kind === 'fixed') return { lowC: curve.lowC, highC: curve.highC };
  if (curve.kind === 'estimate') return { lowC: ESTIMATE_LOW_C, highC: ESTIMATE_HIGH_C };
  const temperatures = curve.points.map((point) => point.celsius);
  return { lowC: Math.min(...temperatures), highC: Math.max(...temperatures) };
}

/** Why a curve does not answer for `celsius`, or null when it does. */
export function curveRefusal(curve: TimeCurve, celsius: number): TimeRefusal | null {
  if (!Number.isFinite(celsius)) return 'temperature_not_real';
  const { lowC, highC } = curveRange(curve);
  const below = celsius < lowC - SAME_TEMPERATURE_C;
  const above = celsius > highC + SAME_TEMPERATURE_C;
  if (!below && !above) return null;
  if (curve.kind === 'fixed') return 'outside_tolerance';
  return below ? 'below_range' : 'above_range';
}

/** The two neighbouring rows around `celsius`; the nearest end twice when there is nothing beyond it. */
function neighbours(points: readonly TimePoint[], celsius: number): readonly [TimePoint, TimePoint] | null {
  const cooler = points.findLast((point) => point.celsius <= celsius) ?? points[0];
  const warmer = points.find((point) => point.celsius >= celsius) ?? points.at(-1);
  return cooler === undefined || warmer === undefined ? null : [cooler, warmer];
}

function lnBetween(cooler: TimePoint, warmer: TimePoint, celsius: number): number {
  if (warmer.celsius === cooler.celsius) return Math.log(cooler.seconds);
  const share = (celsius - cooler.celsius) / (warmer.celsius - cooler.celsius);
  return Math.log(cooler.seconds) + share * (Math.log(warmer.seconds) - Math.log(cooler.seconds));
}

/**
 * ln(seconds) at `celsius`, the model every sum here shares: linear in temperature between rows. Only for a
 * temperature the curve answers for (`curveRefusal` null).
 */
export function lnSeconds(curve: TimeCurve, celsius: number): number {
  if (curve.kind === 'fixed') return Math.log(curve.point.seconds);
  if (curve.kind === 'estimate') {
    return Math.log(curve.point.seconds) - ESTIMATE_PER_DEGREE * (celsius - curve.point.celsius);
  }
  const pair = neighbours(curve.points, celsius);
  return pair === null ? Number.NaN : lnBetween(pair[0], pair[1], celsius);
}

function rowLine(point: TimePoint): WorkingLine {
  return {
    label: `At ${shown(point.celsius)} °C`,
    formula: shownTime(point.seconds),
    value: point.seconds,
    unit: 's',
    source: point.source,
  };
}

/**
 * The time in seconds at `celsius`: a row gives back its own time, between rows ln(time) is interpolated, outside
 * them it is refused. A single row holds within its tolerance, or gives a marked estimate.
 *
 * Source: exponential dependence of rate on temperature; the spread of ln(time) per °C between films and
 * developers follows from Kodak F-32 (rotary tubes),
 * http://www.kodak.com/global/en/professional/support/techPubs/f32/f32c.jhtml
 */
export function timeAtTemperature(curve: TimeCurve, celsius: number): WorkedOrNot<number, TimeRefusal> {
  const refusal = curveRefusal(curve, celsius);
  if (refusal !== null) return refuse(refusal);
  if (curve.kind === 'fixed') return accept({ value: curve.point.seconds, lines: [rowLine(curve.point)] });

  const pair =
    curve.kind === 'estimate' ? ([curve.point, curve.point] as const) : neighbours(curve.points, celsius);
  if (pair === null) return refuse('below_range');
  const [cooler, warmer] = pair;
  const atRow = [cooler, warmer].find((point) => Math.abs(point.celsius - celsius) <= SAME_TEMPERATURE_C);
  if (atRow !== undefined) return accept({ value: atRow.seconds, lines: [rowLine(atRow)] });

  const value = Math.exp(lnSeconds(curve, celsius));
  if (curve.kind === 'estimate') {
    const formula = `${shownTime(cooler.seconds)} × exp(−${ESTIMATE_PER_DEGREE} × (${shown(celsius)} − ${shown(cooler.celsius)}))`;
    const line: WorkingLine = {
      label: `Estimate at ${shown(celsius)} °C`,
      formula,
      value,
      unit: 's',
      source: ESTIMATED,
    };
    return accept({ value, lines: [rowLine(cooler), line] });
  }
  const share = `(${shown(celsius)} − ${shown(cooler.celsius)}) / (${shown(warmer.celsius)} − ${shown(cooler.celsius)})`;
  const line: WorkingLine = {
    label: `At ${shown(celsius)} °C, between the two rows`,
    formula: `${shownTime(cooler.seconds)} × (${shownTime(warmer.seconds)} / ${shownTime(cooler.seconds)}) ^ (${share})`,
    value,
    unit: 's',
    source: INTERPOLATED,
  };
  return accept({ value, lines: [rowLine(cooler), rowLine(warmer), line] });
}
