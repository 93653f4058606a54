import { accept, refuse } from '../checked.ts';
import type { Source } from './source.ts';
import { arithmetic } from './source.ts';
import type { WorkedOrNot, WorkingLine } from './working.ts';
import { shown } from './working.ts';

/** Why a drift cannot be worked out from the readings. */
export type DriftRefusal =
  | 'time_not_positive'
  | 'temperature_not_real'
  | 'constant_not_real'
  | 'no_difference_to_room'
  | 'moves_away_from_room'
  | 'crosses_room';

/**
 * Newton's law of cooling: dT/dt = −k (T − room), so T(t) = room + (start − room) exp(−k t). It holds for a vessel
 * that is one temperature throughout and loses heat in proportion to the difference; a tank that is moved does,
 * within reading error. It serves warming in a hot room as well.
 */
const NEWTON: Source = arithmetic('Newton’s law of cooling, T = room + (start − room) · exp(−k t)');

/** What a tank does over a step. */
export type Drift = {
  /** Temperature at the end of the step, °C. */
  readonly endC: number;
  /** Mean over the step by time, °C. */
  readonly meanC: number;
  /** The start that makes the mean the temperature aimed at, °C. */
  readonly startForMeanC: number;
};

function areTemperatures(...values: readonly number[]): boolean {
  return values.every((value) => Number.isFinite(value) && value > -273.15);
}

/**
 * (1 − exp(−x)) / x, the mean of exp(−x s) for s from 0 to 1; x ≥ 0. `expm1` keeps it right for the small x of a
 * well wrapped tank.
 */
function meanDecay(x: number): number {
  return x === 0 ? 1 : -Math.expm1(-x) / x;
}

/**
 * The constant of a tank, per minute, from two readings `seconds` apart (> 0) in a room of `roomC`; all in °C.
 * Nought when nothing changed.
 */
export function coolingPerMinute(
  startC: number,
  endC: number,
  seconds: number,
  roomC: number,
): WorkedOrNot<number, DriftRefusal> {
  if (!areTemperatures(startC, endC, roomC)) return refuse('temperature_not_real');
  if (!(seconds > 0 && Number.isFinite(seconds))) return refuse('time_not_positive');
  const before = startC - roomC;
  const after = endC - roomC;
  if (before === 0) return refuse('no_difference_to_room');
  // The room itself is only reached after for ever.
  if (after === 0 || Math.sign(after) !== Math.sign(before)) return refuse('crosses_room');
  if (Math.abs(after) > Math.abs(before)) return refuse('moves_away_from_room');
  const value = (Math.log(before / after) / seconds) * 60;
  const line: WorkingLine = {
    label: 'Constant of the tank',
    formula: `ln((${shown(startC)} − ${shown(roomC)}) / (${shown(endC)} − ${shown(roomC)})) / ${shown(seconds / 60)} min`,
    value,
    unit: '1/min',
    source: NEWTON,
  };
  return accept({ value, lines: [line] });
}

/** The temperature in °C after `seconds`, for a tank of `perMinute` that starts at `startC` in a room of `roomC`. */
export function temperatureAfter(startC: number, roomC: number, perMinute: number, seconds: number): number {
  return roomC + (startC - roomC) * Math.exp((-perMinute * seconds) / 60);
}

/**
 * What a tank of `perMinute` does over a step of `seconds`: end, mean, and the start whose mean is `aimC`. Room and
 * temperatures in °C, `seconds` > 0, `perMinute` ≥ 0.
 */
export function driftOver(
  startC: number,
  roomC: number,
  perMinute: number,
  seconds: number,
  aimC: number,
): WorkedOrNot<Drift, DriftRefusal> {
  if (!areTemperatures(startC, roomC, aimC)) return refuse('temperature_not_real');
  if (!(seconds > 0 && Number.isFinite(seconds))) return refuse('time_not_positive');
  if (!(perMinute >= 0 && Number.isFinite(perMinute))) return refuse('constant_not_real');
  const x = (perMinute * seconds) / 60;
  const share = meanDecay(x);
  const endC = temperatureAfter(startC, roomC, perMinute, seconds);
  const meanC = roomC + (startC - roomC) * share;
  const startForMeanC = roomC + (aimC - roomC) / share;
  if (!Number.isFinite(startForMeanC)) return refuse('constant_not_real');
  const room = shown(roomC);
  return accept({
    value: { endC, meanC, startForMeanC },
    lines: [
      {
        label: 'Constant × time, x',
        formula: `${shown(perMinute, 4)} / min × ${shown(seconds / 60)} min`,
        value: x,
        unit: '',
        source: NEWTON,
      },
      {
        label: 'At the end',
        formula: `${room} + (${shown(startC)} − ${room}) × exp(−x)`,
        value: endC,
        unit: '°C',
        source: NEWTON,
      },
      {
        label: 'Mean over the step',
        formula: `${room} + (${shown(startC)} − ${room}) × (1 − exp(−x)) / x`,
        value: meanC,
        unit: '°C',
        source: NEWTON,
      },
      {
        label: `Start for a mean of ${shown(aimC)} °C`,
        formula: `${room} + (${shown(aimC)} − ${room}) × x / (1 − exp(−x))`,
        value: startForMeanC,
        unit: '°C',
        source: NEWTON,
      },
    ],
  });
}

/** The drift of a step straight from two readings `seconds` apart, the step being that time. */
export function driftFromReadings(
  startC: number,
  endC: number,
  seconds: number,
  roomC: number,
  aimC: number,
): WorkedOrNot<Drift, DriftRefusal> {
  const constant = coolingPerMinute(startC, endC, seconds, roomC);
  if (!constant.ok) return constant;
  const drift = driftOver(startC, roomC, constant.value.value, seconds, aimC);
  if (!drift.ok) return drift;
  return accept({
    value: drift.value.value,
    lines: [...constant.value.lines, ...drift.value.lines],
  });
}
