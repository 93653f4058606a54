import type { PlottedRoll, Trend } from '../../shared/api/methods/colour-methods.ts';

/** Which cast is looked at: a* or b*. */
export type CastAxis = Trend['of'];

/** What it is looked at against. */
export type CastFactor = Trend['against'];

interface AxisWords {
  readonly label: string;
  readonly symbol: string;
  readonly less: string;
  readonly more: string;
}

/** The two axes of a cast in words. Source of their directions: CIE 015:2018, 8.2.1 (a* green to red, b* blue to yellow). */
export const CAST_AXES: Readonly<Record<CastAxis, AxisWords>> = {
  a: { label: 'green to magenta', symbol: 'a*', less: 'greener', more: 'more magenta' },
  b: { label: 'blue to yellow', symbol: 'b*', less: 'bluer', more: 'yellower' },
};

interface FactorWords {
  readonly label: string;
  /** What is on the axis, with its unit. */
  readonly title: string;
  readonly less: string;
  readonly more: string;
  /** Whether 0 means something on the axis, and is always shown. */
  readonly hasZero: boolean;
  readonly signed: boolean;
  readonly digits: number;
}

/** What a cast is looked at against, in words. */
export const CAST_FACTORS: Readonly<Record<CastFactor, FactorWords>> = {
  temperatureErrorC: {
    label: 'developer temperature error',
    title: 'developer, measured less meant, °C',
    less: 'colder',
    more: 'warmer',
    hasZero: true,
    signed: true,
    digits: 1,
  },
  monthsPastExpiry: {
    label: 'months past expiry',
    title: 'developed, months past expiry',
    less: 'fresher',
    more: 'older',
    hasZero: true,
    signed: true,
    digits: 0,
  },
  bathUsedCm2: {
    label: 'film through the bath before',
    title: 'film area through the developer before, cm²',
    less: 'fresher bath',
    more: 'more used bath',
    hasZero: true,
    signed: false,
    digits: 0,
  },
  developerSeconds: {
    label: 'developer time',
    title: 'developer time, s',
    less: 'shorter',
    more: 'longer',
    hasZero: false,
    signed: false,
    digits: 0,
  },
};

/** The factors in the order they are offered. */
export const FACTORS = [
  'temperatureErrorC',
  'monthsPastExpiry',
  'bathUsedCm2',
  'developerSeconds',
] as const satisfies readonly CastFactor[];

/** A number with a sign that is read aloud as one. */
export function formatSigned(value: number, digits: number): string {
  const text = Math.abs(value).toFixed(digits);
  return Number(text) === 0 ? text : `${value < 0 ? '−' : '+'}${text}`;
}

/** What the log knows of a roll on a factor, in words: `0.6 °C under`, `58 months past`. */
export function describeFactor(roll: PlottedRoll, factor: CastFactor): string {
  const value = roll[factor];
  if (value === null) return 'not in the log';
  switch (factor) {
    case 'temperatureErrorC':
      return Math.abs(value) < 0.05
        ? 'on temperature'
        : `${Math.abs(value).toFixed(1)} °C ${value < 0 ? 'under' : 'over'}`;
    case 'monthsPastExpiry':
      return value <= 0 ? `in date by ${-value} months` : `${value} months past`;
    case 'bathUsedCm2':
      return `${Math.round(value)} cm² before`;
    case 'developerSeconds':
      return `${Math.round(value)} s`;
  }
}

/** A cast in words: `a* −2.6, greener`. */
export function describeCast(axis: CastAxis, value: number, relative: boolean): string {
  const { symbol, less, more } = CAST_AXES[axis];
  const figure = `${symbol} ${formatSigned(value, 1)}`;
  if (!relative || Math.abs(value) < 0.05) return figure;
  return `${figure}, ${value < 0 ? less : more}`;
}
