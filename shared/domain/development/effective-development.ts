import { accept, refuse } from '../checked.ts';
import { arithmetic } from './source.ts';
import type { TimeCurve, TimeRefusal } from './time-at-temperature.ts';
import { curveRefusal, lnSeconds } from './time-at-temperature.ts';
import type { WorkedOrNot } from './working.ts';
import { shown, shownTime } from './working.ts';

/** A temperature read during a step: seconds from pouring in, °C. */
export type TemperatureReading = { readonly atSeconds: number; readonly celsius: number };

/** What the temperatures of a step amount to. Seconds and °C. */
export type EffectiveDevelopment = {
  /** Mean by time, °C, from pouring in to now. */
  readonly meanC: number;
  /** How long at the planned temperature would have developed as much as has been developed by now. */
  readonly equivalentSeconds: number;
  /** The length of the step that develops as much as was planned, if the last reading stays. */
  readonly secondsNeeded: number;
};

/** Why the readings say nothing. */
export type EffectiveRefusal = TimeRefusal | 'no_readings' | 'time_not_positive';

/** The course of temperature: straight between readings, flat before the first and after the last. */
function courseUntil(
  readings: readonly TemperatureReading[],
  untilSeconds: number,
): readonly TemperatureReading[] {
  const inOrder = readings.toSorted((a, b) => a.atSeconds - b.atSeconds);
  const [first] = inOrder;
  const last = inOrder.at(-1);
  if (first === undefined || last === undefined) return [];
  const whole = [
    { atSeconds: Math.min(0, first.atSeconds), celsius: first.celsius },
    ...inOrder,
    { atSeconds: Math.max(untilSeconds, last.atSeconds), celsius: last.celsius },
  ];
  return cut(cut(whole, 0, 'from'), untilSeconds, 'to');
}

/** The course from or up to `atSeconds`, with the value there put in. */
function cut(
  course: readonly TemperatureReading[],
  atSeconds: number,
  side: 'from' | 'to',
): readonly TemperatureReading[] {
  const before = course.findLast((reading) => reading.atSeconds <= atSeconds);
  const after = course.find((reading) => reading.atSeconds >= atSeconds);
  if (before === undefined || after === undefined) return course;
  const width = after.atSeconds - before.atSeconds;
  const share = width === 0 ? 0 : (atSeconds - before.atSeconds) / width;
  const edge = { atSeconds, celsius: before.celsius + share * (after.celsius - before.celsius) };
  return side === 'from'
    ? [edge, ...course.filter((reading) => reading.atSeconds > atSeconds)]
    : [...course.filter((reading) => reading.atSeconds < atSeconds), edge];
}

/** Mean temperature in °C by time from 0 to `untilSeconds` (> 0); null without a reading. */
export function findMeanTemperature(
  readings: readonly TemperatureReading[],
  untilSeconds: number,
): number | null {
  const course = courseUntil(readings, untilSeconds);
  if (course.length === 0) return null;
  let sum = 0;
  for (const [i, right] of course.entries()) {
    const left = course[i - 1];
    if (left !== undefined) {
      sum += ((left.celsius + right.celsius) / 2) * (right.atSeconds - left.atSeconds);
    }
  }
  return sum / untilSeconds;
}

/**
 * The course with the rows of the time table put in where it crosses them, so that ln(time) is straight on every
 * piece.
 */
function splitAtRows(course: readonly TemperatureReading[], curve: TimeCurve): readonly TemperatureReading[] {
  if (curve.kind !== 'points') return course;
  return course.flatMap((right, i) => {
    const left = course[i - 1];
    if (left === undefined) return [right];
    const rise = right.celsius - left.celsius;
    const crossings = curve.points
      .map((point) => ({ celsius: point.celsius, share: (point.celsius - left.celsius) / rise }))
      .filter(({ share }) => share > 0 && share < 1)
      .toSorted((a, b) => a.share - b.share)
      .map(({ celsius, share }) => ({
        atSeconds: left.atSeconds + share * (right.atSeconds - left.atSeconds),
        celsius,
      }));
    return [...crossings, right];
  });
}

/** ∫ exp(−L) over `seconds` when L runs straight from `from` to `to`. */
function integrateDecay(from: number, to: number, seconds: number): number {
  const change = to - from;
  const mean = Math.abs(change) < 1e-12 ? 1 : -Math.expm1(-change) / change;
  return seconds * Math.exp(-from) * mean;
}

/**
 * What the temperatures read so far amount to, for a step planned as `plannedSeconds` at `plannedC`.
 *
 * The bath develops at the rate 1 / t(T), t being the time the curve asks for at T. Between readings T runs
 * straight, before the first and after the last it is taken as flat. So the development done is ∫ dt / t(T), and
 * t(plannedC) × that is the time at the planned temperature that would have done as much. A push or an extension
 * multiplies both sides alike and drops out. The integral is exact: ln t is straight on every piece.
 * Assumes that the rate follows temperature at once and that the curve holds for a changing temperature.
 */
export function effectiveDevelopment(
  curve: TimeCurve,
  readings: readonly TemperatureReading[],
  elapsedSeconds: number,
  plannedSeconds: number,
  plannedC: number,
): WorkedOrNot<EffectiveDevelopment, EffectiveRefusal> {
  if (!(elapsedSeconds > 0 && plannedSeconds > 0)) return refuse('time_not_positive');
  const course = splitAtRows(courseUntil(readings, elapsedSeconds), curve);
  const last = course.at(-1);
  const meanC = findMeanTemperature(readings, elapsedSeconds);
  if (last === undefined || meanC === null) return refuse('no_readings');
  for (const celsius of [plannedC, ...course.map((reading) => reading.celsius)]) {
    const refusal = curveRefusal(curve, celsius);
    if (refusal !== null) return refuse(refusal);
  }

  const plannedLn = lnSeconds(curve, plannedC);
  let equivalentSeconds = 0;
  for (const [i, right] of course.entries()) {
    const left = course[i - 1];
    if (left === undefined) continue;
    const from = lnSeconds(curve, left.celsius) - plannedLn;
    const to = lnSeconds(curve, right.celsius) - plannedLn;
    equivalentSeconds += integrateDecay(from, to, right.atSeconds - left.atSeconds);
  }
  const slowness = Math.exp(lnSeconds(curve, last.celsius) - plannedLn);
  const secondsNeeded = elapsedSeconds + (plannedSeconds - equivalentSeconds) * slowness;
  const rate = arithmetic(
    'Development goes at the rate 1 / time at the temperature, summed over the readings',
  );
  return accept({
    value: { meanC, equivalentSeconds, secondsNeeded },
    lines: [
      {
        label: 'Mean so far',
        formula: `${readings.length} readings over ${shownTime(elapsedSeconds)}, weighted by time`,
        value: meanC,
        unit: '°C',
        source: arithmetic('Straight between readings'),
      },
      {
        label: `Worth at ${shown(plannedC)} °C`,
        formula: `∫ t(${shown(plannedC)}) / t(T) over ${shownTime(elapsedSeconds)}`,
        value: equivalentSeconds,
        unit: 's',
        source: rate,
      },
      {
        label: `Same development as ${shownTime(plannedSeconds)}`,
        formula: `${shownTime(elapsedSeconds)} + (${shownTime(plannedSeconds)} − ${shownTime(Math.max(0, equivalentSeconds))}) × ${shown(slowness, 3)}`,
        value: secondsNeeded,
        unit: 's',
        source: rate,
      },
    ],
  });
}
