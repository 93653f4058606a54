import { describe, expect, it } from 'vitest';
import { serialInflation } from '../../../../shared/domain/statistics/serial-inflation.ts';
import { randomFrom } from '../../../support/film-simulator.ts';

/** Rows about 0 in which every value repeats `times` times. */
function blocks(times: number, rows = 40, length = 12): number[][] {
  const random = randomFrom(7);
  return Array.from({ length: rows }, () => {
    const values: number[] = [];
    while (values.length < length) {
      const value = random() - 0.5;
      for (let at = 0; at < times && values.length < length; at += 1) values.push(value);
    }
    return values;
  });
}

describe('serial inflation', () => {
  it('is about 1 for independent values', () => {
    expect(serialInflation(blocks(1), 12)).toBeLessThan(1.3);
  });

  // Hand: a mean of 12 values that are 2 values six times over varies as a mean of 2: six times as much as one of 12.
  it('is the length of the blocks for values that repeat', () => {
    expect(Math.abs(serialInflation(blocks(6, 400), 12) - 6)).toBeLessThan(0.3);
  });

  // Source: Priestley, Spectral Analysis and Time Series (1981), 5.3.2: (1 + ρ)/(1 − ρ) for a long row of AR(1).
  it('is (1 + ρ)/(1 − ρ) for a long autoregressive row', () => {
    const random = randomFrom(11);
    const row: number[] = [];
    let value = 0;
    for (let at = 0; at < 20_000; at += 1) {
      value = 0.5 * value + (random() - 0.5);
      row.push(value);
    }
    expect(serialInflation([row], 1000)).toBeCloseTo(3, 0);
  });

  it('never exceeds the count, nor falls below 1', () => {
    expect(serialInflation([[1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1]], 3)).toBeLessThanOrEqual(3);
    expect(serialInflation([[1, -1, 1, -1, 1, -1, 1, -1, 1, -1]], 10)).toBe(1);
    expect(serialInflation([], 10)).toBe(1);
  });
});
