import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  correctByBenjaminiHochberg,
  correctByHolm,
} from '../../../../shared/domain/statistics/correction.ts';

/** Source: Benjamini & Hochberg, J. R. Statist. Soc. B 57 (1995) 289–300, section 4, the 15 ordered chances. */
const THROMBOLYSIS = [
  0.0001, 0.0004, 0.0019, 0.0095, 0.0201, 0.0278, 0.0298, 0.0344, 0.0459, 0.324, 0.4262, 0.5719, 0.6528,
  0.759, 1,
];

const rounded = (values: readonly number[]) => values.map((value) => Number(value.toFixed(6)));

describe('correction for the number of comparisons', () => {
  // The paper rejects four at 0.05 with its procedure, three with Bonferroni's kind.
  it('keeps the four findings of the paper', () => {
    expect(correctByBenjaminiHochberg(THROMBOLYSIS).filter((p) => p <= 0.05)).toHaveLength(4);
  });

  // Reference: R 4.2.2 p.adjust(p, "BH").
  it('gives the corrected chances of R by Benjamini and Hochberg', () => {
    expect(rounded(correctByBenjaminiHochberg(THROMBOLYSIS))).toEqual([
      0.0015, 0.003, 0.0095, 0.035625, 0.0603, 0.063857, 0.063857, 0.0645, 0.0765, 0.486, 0.581182, 0.714875,
      0.753231, 0.813214, 1,
    ]);
  });

  // Reference: R 4.2.2 p.adjust(p, "holm").
  it('gives the corrected chances of R by Holm', () => {
    expect(rounded(correctByHolm(THROMBOLYSIS))).toEqual([
      0.0015, 0.0056, 0.0247, 0.114, 0.2211, 0.278, 0.278, 0.278, 0.3213, 1, 1, 1, 1, 1, 1,
    ]);
  });

  it('answers in the order of the question', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { maxLength: 12 }), (chances) => {
        expect(correctByHolm([...chances].reverse())).toEqual(correctByHolm(chances).reverse());
      }),
    );
  });
});
