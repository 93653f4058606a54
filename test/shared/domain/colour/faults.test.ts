import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { countFaults, sayChance } from '../../../../shared/domain/colour/faults.ts';
import type { FaultRoll } from '../../../../shared/domain/colour/faults.ts';
import { randomFrom } from '../../../support/film-simulator.ts';

const LEAK = { name: 'leak', phrase: 'a light leak' };
const CAMERA = { name: 'camera', phrase: (value: string) => `camera ${value}` };
const SCANNER = { name: 'scanner', phrase: (value: string) => `scanner ${value}` };

function rollsOf(camera: string | null, faulty: number, sound: number, scanner = 'S'): FaultRoll[] {
  return Array.from({ length: faulty + sound }, (_, at) => ({
    roll: `${camera ?? '?'}-${at}`,
    faults: at < faulty ? ['leak'] : [],
    factors: { camera, scanner: at % 2 === 0 ? scanner : 'T' },
  }));
}

describe('faults by camera, bath and scanner', () => {
  // Reference: R 4.2.2 fisher.test(matrix(c(14, 2, 20, 44), 2)): p = 9.346933876e-05, below 1/10 000.
  const rolls = [...rollsOf('B', 14, 20), ...rollsOf('A', 2, 44)];

  it('gives the exact chance of fourteen leaks of sixteen on one camera', () => {
    const [finding] = countFaults(rolls, [LEAK], [CAMERA], randomFrom(1));
    expect(finding?.p).toBeCloseTo(9.346933876e-5, 12);
  });

  it('says it in plain words', () => {
    const [finding] = countFaults(rolls, [LEAK], [CAMERA], randomFrom(1));
    expect(finding?.say).toBe(
      '14 of 16 rolls with a light leak are on camera B, which has 34 of 80 rolls; ' +
        'chance alone would do the like less than once in 10 000 (one comparison made). This tells where, not why.',
    );
  });

  it('corrects for every comparison made', () => {
    const findings = countFaults(rolls, [LEAK], [CAMERA, SCANNER], randomFrom(1));
    expect(findings.map((finding) => finding.comparisons)).toEqual([2, 2]);
    // Holm: the least of two chances counts twice.
    expect(findings[0]?.corrected).toBeCloseTo(2 * 9.346933876e-5, 12);
  });

  it('lets an even spread stand for nothing', () => {
    const even = [...rollsOf('A', 3, 9), ...rollsOf('B', 3, 9)];
    const [finding] = countFaults(even, [LEAK], [CAMERA], randomFrom(1));
    expect(finding?.stands).toBe(false);
    expect(finding?.say).toContain('That is no finding.');
  });

  it('leaves rolls without a logged camera out and says how many', () => {
    const [finding] = countFaults([...rolls, ...rollsOf(null, 2, 1)], [LEAK], [CAMERA], randomFrom(1));
    expect(finding?.unknown).toBe(3);
    expect(finding?.rolls).toBe(80);
    expect(finding?.say).toContain('Left out, as the log does not say: 3.');
  });

  it('makes no comparison where nothing can differ', () => {
    expect(countFaults(rollsOf('A', 2, 5), [LEAK], [CAMERA], randomFrom(1))).toEqual([]);
  });

  it('never speaks of a cause', () => {
    const count = fc.integer({ min: 0, max: 12 });
    fc.assert(
      fc.property(count, count, count, count, (a, b, c, d) => {
        const mixed = [...rollsOf('A', a, b), ...rollsOf('B', c, d)];
        for (const finding of countFaults(mixed, [LEAK], [CAMERA, SCANNER], randomFrom(2))) {
          expect(finding.say).not.toMatch(/caus|because|due to|blame|fault of/i);
        }
      }),
      { numRuns: 60 },
    );
  });

  // Property of the correction: with no connection at all, a finding stands in at most about one call in twenty.
  it('finds nothing among faults strewn by chance more than one time in twenty', () => {
    const random = randomFrom(99);
    let stood = 0;
    for (let round = 0; round < 200; round += 1) {
      const strewn = Array.from({ length: 40 }, (_, at): FaultRoll => ({
        roll: String(at),
        faults: random() < 0.3 ? ['leak'] : [],
        factors: { camera: random() < 0.5 ? 'A' : 'B', scanner: random() < 0.5 ? 'S' : 'T' },
      }));
      if (countFaults(strewn, [LEAK], [CAMERA, SCANNER], random).some((finding) => finding.stands))
        stood += 1;
    }
    // Two standard errors of 5 % among 200: 2 · √(0.05 · 0.95/200) = 0.031.
    expect(stood / 200).toBeLessThan(0.05 + 0.031);
  });

  it.each([
    [0.00001, 'less than once in 10 000'],
    [0.00012, 'about once in 8 300'],
    [0.024, 'about once in 42'],
    [0.3, 'about once in 3'],
    [0.8, 'more often than not'],
  ])('says a chance of %d', (p, words) => {
    expect(sayChance(p)).toBe(words);
  });
});
