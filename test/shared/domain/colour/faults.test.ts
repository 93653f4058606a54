import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { countFaults, sayChance } from '../../../../shared/domain/colour/faults.ts';
import type { FaultRoll } from '../../../../shared/domain/colour/faults.ts';
import { randomFrom } from '../../../support/film-simulator.ts';

const LEAK = { name: 'leak', phrase: 'a light leak' };
const CAMERA = { name: 'camera', phrase: (value: string) => `on camera ${value}` };
const SCANNER = { name: 'scanner', phrase: (value: string) => `scanned on ${value}` };

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
      '14 of 16 rolls with a light leak are on camera B, as are 34 of all 80 rolls; ' +
        'chance alone would do this less than once in 10 000 (exact test, one comparison). This tells where, not why.',
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

  it('counts a repair only among the rolls of its camera', () => {
    const repair = {
      name: 'repair 1',
      phrase: (value: string) => `from ${value} the repair`,
      among: 'of camera B',
    };
    const mended = rolls.map((roll, at): FaultRoll =>
      roll.factors['camera'] === 'B'
        ? { ...roll, factors: { ...roll.factors, 'repair 1': at < 18 ? 'before' : 'after' } }
        : roll,
    );
    const [finding] = countFaults(mended, [LEAK], [repair], randomFrom(1));
    // Hand: (C(18, 14) + C(16, 14)) / C(34, 14), both ends; R 4.2.2 fisher.test says the same, 2.2845e-06.
    expect(finding).toMatchObject({
      value: 'before',
      faultsThere: 14,
      rollsThere: 18,
      rolls: 34,
      unknown: 0,
    });
    expect(finding?.p).toBeCloseTo((3060 + 120) / 1_391_975_640, 12);
    expect(finding?.say).toMatch(
      /^14 of 14 rolls of camera B with a light leak are from before the repair, as are 18 of all 34 rolls of camera B;/,
    );
  });

  it('says so where so few rolls could show nothing at all', () => {
    // Hand: two rolls with it, two without, two on each camera: at best 2 of the 4!/(2!2!) = 6 ways.
    const few = [...rollsOf('A', 2, 0), ...rollsOf('B', 0, 2)];
    const [finding] = countFaults(few, [LEAK], [CAMERA], randomFrom(1));
    expect(finding).toMatchObject({ enough: false, stands: false });
    expect(finding?.say).toContain('Not enough rolls to tell');
    expect(finding?.say).toContain('about once in 3');
  });

  it('says which two cannot be told apart', () => {
    const both = rolls.map((roll) => ({
      ...roll,
      factors: {
        camera: roll.factors['camera'] ?? null,
        scanner: roll.factors['camera'] === 'B' ? 'S' : 'T',
      },
    }));
    const [finding] = countFaults(both, [LEAK], [CAMERA, SCANNER], randomFrom(1));
    expect(finding?.say).toContain(
      'The same rolls stand out as scanned on S: these rolls cannot tell the two apart.',
    );
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
