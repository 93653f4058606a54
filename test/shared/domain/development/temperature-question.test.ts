import { describe, expect, it } from 'vitest';
import {
  questionTemperature,
  suggestTemperature,
  USUAL_C,
} from '../../../../shared/domain/development/temperature-question.ts';

describe('a typed temperature', () => {
  it('of 378 is asked about as 37.8', () => {
    expect(questionTemperature(378, 37.8)).toEqual({ code: 'decimal_point_missing', suggestedC: 37.8 });
  });

  it('of 100.4 is asked about as Fahrenheit', () => {
    // By hand: (100.4 − 32) × 5 / 9 = 38.0 °C.
    const question = questionTemperature(100.4, 37.8);
    expect(question?.code).toBe('fahrenheit_typed');
    expect(question?.suggestedC).toBeCloseTo(38, 9);
  });

  it('of 68 is asked about as Fahrenheit where 20 °C is planned', () => {
    expect(questionTemperature(68, 20)).toEqual({ code: 'fahrenheit_typed', suggestedC: 20 });
  });

  it('of 80 is asked about without an offer', () => {
    expect(questionTemperature(80, 37.8)).toEqual({ code: 'far_from_plan', suggestedC: null });
  });

  it.each([36.9, 37.8, 25, 45])('of %d °C is taken where 37.8 °C is planned', (typed) => {
    expect(questionTemperature(typed, 37.8)).toBeNull();
  });
});

describe('a temperature of a sum', () => {
  // By hand: 131 °F = 55 °C, 70 °F = 21.1 °C, 68 °F = 20 °C, 54 °F = 12.2 °C.
  it.each([
    [390, 'bath', 39],
    [378, 'bath', 37.8],
    [68, 'bath', 20],
    [131, 'hot', 55],
    [70, 'room', 21.1],
    [54, 'cold', 12.2],
  ] as const)('of %d is asked about for a %s', (typed, what, meant) => {
    expect(suggestTemperature(typed, USUAL_C[what])).toBeCloseTo(meant, 1);
  });

  it.each([
    [20, 'bath'],
    [39, 'bath'],
    [60, 'hot'],
    [5, 'cold'],
    [30, 'room'],
  ] as const)('of %d is taken for a %s', (typed, what) => {
    expect(suggestTemperature(typed, USUAL_C[what])).toBeNull();
  });
});
