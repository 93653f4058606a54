import { median, robustDeviation } from './order.ts';

/** Robust deviations beyond which a value is named. Source: Iglewicz & Hoaglin (1993), modified z score 3.5. */
const OUTLYING = 3.5;

/**
 * Places of the values that lie far from the middle of all: more than 3.5 robust deviations. None where more than half
 * of the values are the same, as then there is no deviation to go by.
 * Source: Iglewicz & Hoaglin, How to Detect and Handle Outliers (ASQC, 1993), section 3.3.
 */
export function outlying(values: readonly number[]): number[] {
  const middle = median(values);
  const bar = OUTLYING * robustDeviation(values);
  if (!(bar > 0)) return [];
  return values.flatMap((value, place) => (Math.abs(value - middle) > bar ? [place] : []));
}
