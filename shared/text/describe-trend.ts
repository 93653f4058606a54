import type { CastGroups, CastTrend } from '../domain/colour/cast-trends.ts';
import { LEAST_FOR_LINE } from '../domain/colour/cast-trends.ts';
import { sayChance } from '../domain/colour/faults.ts';
import type { LogKind, LogNumber, Measure, Per } from '../domain/colour/logged-roll.ts';

interface MeasureWords {
  readonly label: string;
  readonly symbol: string;
  /** What the figure is, in a sentence. */
  readonly title: string;
  readonly less: string;
  readonly more: string;
  readonly unit: string;
  readonly digits: number;
}

/** What is measured, in words. Source of the directions: CIE 015:2018, 8.2.1 (a* green to red, b* blue to yellow). */
export const MEASURE_WORDS: Readonly<Record<Measure, MeasureWords>> = {
  deltaA: {
    label: 'green to magenta',
    symbol: 'Δa*',
    title: 'Δa*, against the stock',
    less: 'greener',
    more: 'more magenta',
    unit: '',
    digits: 1,
  },
  deltaB: {
    label: 'blue to yellow',
    symbol: 'Δb*',
    title: 'Δb*, against the stock',
    less: 'bluer',
    more: 'yellower',
    unit: '',
    digits: 1,
  },
  deltaE00: {
    label: 'in all',
    symbol: 'ΔE00',
    title: 'ΔE00, against the stock',
    less: 'as the stock',
    more: 'further away',
    unit: '',
    digits: 1,
  },
  fog: {
    label: 'fog of the base',
    symbol: 'ΔD',
    title: 'density of the base, against the stock',
    less: 'clearer',
    more: 'more fog',
    unit: ' D',
    digits: 2,
  },
};

interface NumberWords {
  readonly label: string;
  /** What is on the axis, with its unit. */
  readonly title: string;
  readonly less: string;
  readonly more: string;
  /** Whether 0 means something on the axis, and is always shown. */
  readonly hasZero: boolean;
  readonly signed: boolean;
  readonly digits: number;
  /** The step that a slope is told for. */
  readonly step: number;
  readonly stepWords: string;
  /** What the number rests on, where that is not plain. */
  readonly note: string | null;
}

/** What the log knows as a number, in words. */
export const NUMBER_WORDS: Readonly<Record<LogNumber, NumberWords>> = {
  temperatureErrorC: {
    label: 'developer temperature error',
    title: 'developer, measured less meant, °C',
    less: 'colder',
    more: 'warmer',
    hasZero: true,
    signed: true,
    digits: 1,
    step: 1,
    stepWords: '1 °C',
    note: null,
  },
  effectiveSeconds: {
    label: 'effective developer time',
    title: 'developer time, as much as it was worth at the temperature meant, s',
    less: 'shorter',
    more: 'longer',
    hasZero: false,
    signed: false,
    digits: 0,
    step: 10,
    stepWords: '10 s',
    note: 'Effective time: the time at the temperature meant that would have developed as much, by the time table of the process.',
  },
  bathRolls: {
    label: 'film through the developer before',
    title: 'film through the developer before, rolls of 80 sq in',
    less: 'fresher bath',
    more: 'more used bath',
    hasZero: true,
    signed: false,
    digits: 0,
    step: 1,
    stepWords: 'roll of 80 sq in',
    note: null,
  },
  monthsPastExpiry: {
    label: 'months past expiry',
    title: 'developed, months past expiry',
    less: 'fresher',
    more: 'older',
    hasZero: true,
    signed: true,
    digits: 0,
    step: 12,
    stepWords: 'year',
    note: null,
  },
  warmMonths: {
    label: 'warm months past expiry',
    title: 'months past expiry out of fridge and freezer',
    less: 'kept cold',
    more: 'kept warm',
    hasZero: true,
    signed: false,
    digits: 0,
    step: 12,
    stepWords: 'year',
    note: 'Warm months: months past expiry that the film lay neither in a fridge nor in a freezer. That cold months count for nothing is common practice, no source.',
  },
};

/** What the log knows as a kind, in words. */
export const KIND_WORDS: Readonly<Record<LogKind, { readonly label: string; readonly missing: string }>> = {
  storage: { label: 'storage', missing: 'where the film was kept' },
  camera: { label: 'camera', missing: 'the camera' },
  scanner: { label: 'scanner', missing: 'the scanner' },
};

/** How many rolls or developments, in words: `1 roll`, `no developments`. */
export function countOf(count: number, per: Per): string {
  return `${count === 0 ? 'no' : count} ${per}${count === 1 ? '' : 's'}`;
}

/** A number with its sign and two digits that count: `+2.4`, `−0.31`; 0 has none. */
function signed(value: number): string {
  if (value === 0) return '0';
  const text = Math.abs(value) >= 100 ? Math.abs(value).toFixed(0) : Math.abs(value).toPrecision(2);
  return `${value < 0 ? '−' : '+'}${text}`;
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** How likely chance alone is, and after how many questions. */
function chanceWords(corrected: number, questions: number): string {
  const asked = questions === 1 ? 'one question asked' : `${questions} questions asked, corrected after Holm`;
  return `Chance alone would do the like ${sayChance(corrected)} (${asked}).`;
}

/** What a trend shows: how much, how sure, of how many. It names no cause. */
export function sayTrend(trend: CastTrend, per: Per): string {
  const { symbol, label, unit } = MEASURE_WORDS[trend.of];
  const factor = NUMBER_WORDS[trend.against];
  const head = `${capital(label)} (${symbol}) against ${factor.label}`;
  if (trend.count < LEAST_FOR_LINE) {
    return `${head}: not enough ${per}s. ${capital(countOf(trend.count, per))} of which both are known; ${LEAST_FOR_LINE} are the fewest that can show anything.`;
  }
  const { line, rank } = trend;
  if (line === null || rank === null)
    return `${head}: one of the two is the same on all ${trend.count} ${per}s, so there is nothing to see.`;
  const [low, high] = [line.low * factor.step, line.high * factor.step];
  const interval =
    rank.interval === null ? '' : ` (95 %: ${signed(rank.interval.low)} to ${signed(rank.interval.high)})`;
  return (
    `${head}: ${signed(line.slope * factor.step)}${unit} per ${factor.stepWords} (95 %: ${signed(low)} to ${signed(high)}) ` +
    `over ${countOf(trend.count, per)}; rank correlation ${signed(rank.rho)}${interval}. ` +
    `${chanceWords(trend.corrected ?? 1, trend.questions)} What else varied with it is not ruled out.`
  );
}

/** What the groups show: their middles, and how likely chance alone is. It names no cause. */
export function sayGroups(found: CastGroups, per: Per): string {
  const { symbol, label, unit } = MEASURE_WORDS[found.of];
  const head = `${capital(label)} (${symbol}) by ${KIND_WORDS[found.by].label}`;
  if (found.groups.length === 0) return `${head}: not enough ${per}s. The log says it of none.`;
  const middles = found.groups
    .map(({ value, count, median }) => `${value} ${signed(median)}${unit} (${countOf(count, per)})`)
    .join(', ');
  if (found.groups.length === 1)
    return `${head}: all ${countOf(found.count, per)} are ${middles}, so there is nothing to compare.`;
  if (found.test === null)
    return `${head}: ${middles}. Not enough ${per}s: even the most uneven order of these would not be rare.`;
  return `${head}: middles ${middles}. ${chanceWords(found.corrected ?? 1, found.questions)} What else varied with it is not ruled out.`;
}
