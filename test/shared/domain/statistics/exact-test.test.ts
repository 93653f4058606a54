import { describe, expect, it } from 'vitest';
import { exactTest, exactTest2x2 } from '../../../../shared/domain/statistics/exact-test.ts';

/** A repeatable source of numbers 0 ≤ x < 1 (mulberry32). */
function randomFrom(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296;
  };
}

describe('exact test', () => {
  // Source: Agresti, Categorical Data Analysis (2002), p. 91, Fisher's tea taster 3/1/1/3: two-sided 0.4857
  // (hand: (16 + 16 + 1 + 1)/70).
  it('gives the tea tasting', () => {
    expect(exactTest2x2(3, 1, 1, 3)).toBeCloseTo(34 / 70, 12);
  });

  // Source: R documentation of fisher.test, "Convictions of like-sex criminals" (Fisher 1962): 2/10/15/3, 0.0005367.
  it('gives the convictions of twins', () => {
    expect(exactTest2x2(2, 15, 10, 3)).toBeCloseTo(0.0005367241191, 12);
  });

  // Reference: R 4.2.2 fisher.test(matrix(c(3,0,2,1,5,4,0,2,6), 3)).
  it('gives a table of three by three', () => {
    const table = [
      [3, 1, 0],
      [0, 5, 2],
      [2, 4, 6],
    ];
    const chance = exactTest(table, randomFrom(1));
    expect(chance.method).toBe('exact');
    expect(chance.p).toBeCloseTo(0.05215433375, 9);
  });

  // Source: Agresti (2002), p. 57, job satisfaction by income; R documentation of fisher.test: p = 0.7827.
  it('comes close to a large table by shuffling', () => {
    const table = [
      [1, 3, 10, 6],
      [2, 3, 10, 7],
      [1, 6, 14, 12],
      [0, 1, 9, 11],
    ];
    const chance = exactTest(table, randomFrom(7));
    expect(chance.method).toBe('shuffled');
    // Four standard errors of a share of 0.78 among 20 000: 4 · √(0.78 · 0.22/20 000) = 0.012.
    expect(Math.abs(chance.p - 0.7827)).toBeLessThan(0.012);
  });

  // Hand: margins 3, 3 and 3, 3: of 6!/(3!3!) = 20 ways two split wholly, so no table is rarer than 2/20.
  it('gives the least chance that the margins allow', () => {
    const even = exactTest(
      [
        [2, 1],
        [1, 2],
      ],
      randomFrom(1),
    );
    expect(even.least).toBeCloseTo(0.1, 12);
    expect(even.p).toBeCloseTo(1, 12);
  });

  // Hand: margins 2, 3 and 1, 4: the one fault is on the first in 2 of 5 ways, on the second in 3 of 5.
  it('gives the least chance of uneven margins', () => {
    const table = [
      [1, 1],
      [0, 3],
    ];
    expect(exactTest(table, randomFrom(1)).least).toBeCloseTo(0.4, 12);
  });

  it('sees nothing in an empty table', () => {
    expect(exactTest([], randomFrom(1)).p).toBe(1);
  });

  it('sees nothing where a margin is empty', () => {
    expect(exactTest2x2(5, 0, 9, 0)).toBeCloseTo(1, 12);
  });
});
