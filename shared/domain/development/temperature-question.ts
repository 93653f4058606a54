import { fahrenheitToCelsius } from '../../units/temperature.ts';

/** A typed temperature that is probably something else, and what was probably meant, °C. */
export type TemperatureQuestion = {
  readonly code: 'decimal_point_missing' | 'fahrenheit_typed' | 'far_from_plan';
  readonly suggestedC: number | null;
};

/**
 * How far a reading may lie from the plan without being asked about, °C. Our choice: tap water and room lie
 * within it, a degree mistaken for another unit does not.
 */
const NEAR_C = 15;

/** How near the other reading of a number must come to the plan to be offered, °C. Our choice. */
const OFFER_C = 5;

/**
 * Whether to ask about a typed temperature before taking it: 378 for 37.8, or 100.4 °F typed as °C, or simply far
 * from what was planned. Null when there is nothing to ask. Both in °C as typed.
 */
export function questionTemperature(typedC: number, plannedC: number): TemperatureQuestion | null {
  if (Math.abs(typedC - plannedC) <= NEAR_C) return null;
  const tenth = typedC / 10;
  if (Math.abs(tenth - plannedC) <= OFFER_C) return { code: 'decimal_point_missing', suggestedC: tenth };
  const converted = fahrenheitToCelsius(typedC);
  if (Math.abs(converted - plannedC) <= OFFER_C) {
    return { code: 'fahrenheit_typed', suggestedC: converted };
  }
  return { code: 'far_from_plan', suggestedC: null };
}

/** What waters and rooms usually have, °C. Our choice, only to tell a slip of the keyboard from a temperature. */
export const USUAL_C = {
  bath: [37.8, 20],
  room: [21],
  hot: [55],
  cold: [12],
} as const satisfies Readonly<Record<string, readonly number[]>>;

/**
 * What was probably meant, °C, where a typed temperature is near none of the usual ones and its other reading, a
 * tenth or °F, is near one. Null when there is nothing to ask.
 */
export function suggestTemperature(typedC: number, usualC: readonly number[]): number | null {
  const questions = usualC.map((usual) => questionTemperature(typedC, usual));
  if (questions.includes(null)) return null;
  return questions.find((question) => (question?.suggestedC ?? null) !== null)?.suggestedC ?? null;
}
