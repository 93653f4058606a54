import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  celsiusStepToFahrenheit,
  celsiusToFahrenheit,
  fahrenheitStepToCelsius,
  fahrenheitToCelsius,
  parseTemperature,
} from '../../../shared/units/temperature.ts';

describe('temperature', () => {
  // 37.8 °C / 100.0 °F: Kodak Z-131, Table 4-1 (rounded pair). 65, 68, 70, 72, 75 °F: columns of Kodak F-32.
  // −40 is the same on both scales; 0 and 100 °C are 32 and 212 °F by definition.
  it.each([
    [0, 32],
    [100, 212],
    [-40, -40],
    [20, 68],
    [18.33, 65],
    [21.11, 70],
    [22.22, 72],
    [23.89, 75],
    [37.78, 100],
  ])('%f °C is %f °F', (celsius, fahrenheit) => {
    expect(celsiusToFahrenheit(celsius)).toBeCloseTo(fahrenheit, 1);
    expect(fahrenheitToCelsius(fahrenheit)).toBeCloseTo(celsius, 2);
  });

  it('turns a tolerance of 0.25 °F into 0.139 °C without moving the zero', () => {
    // 0.25 × 5 / 9 = 0.1389.
    expect(fahrenheitStepToCelsius(0.25)).toBeCloseTo(0.1389, 4);
    expect(celsiusStepToFahrenheit(10)).toBe(18);
  });

  it('comes back from Fahrenheit', () => {
    fc.assert(
      fc.property(fc.double({ min: -273, max: 1000, noNaN: true }), (celsius) => {
        expect(fahrenheitToCelsius(celsiusToFahrenheit(celsius))).toBeCloseTo(celsius, 9);
        expect(fahrenheitStepToCelsius(celsiusStepToFahrenheit(celsius))).toBeCloseTo(celsius, 9);
      }),
    );
  });
});

describe('a temperature as typed', () => {
  // By hand: 98.4 °F = 66.4 × 5 / 9 = 36.889 °C, 100 °F = 37.778 °C.
  it.each([
    ['36.9', 36.9],
    ['36,9 °C', 36.9],
    ['98.4F', 36.889],
    ['100 °f', 37.778],
    ['−5', -5],
  ])('of “%s” is read', (text, celsius) => {
    expect(parseTemperature(text)).toBeCloseTo(celsius, 3);
  });

  it.each(['', 'warm', '37.8.1', '37 8', '37.8K'])('of “%s” is none', (text) => {
    expect(parseTemperature(text)).toBeNull();
  });
});
