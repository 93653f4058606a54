import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compareNatural } from '../../../../shared/domain/numbering/natural-order.ts';

describe('natural order', () => {
  // Field log R35 and names.tsv, group "order": 1, 2, 3, 9, 10, 11, not 1, 10, 11, 2.
  it('counts as a person does', () => {
    const names = ['scan10.jpg', 'scan9.jpg', 'scan1.jpg', 'scan11.jpg', 'scan3.jpg', 'scan2.jpg'];
    expect([...names].sort(compareNatural)).toEqual([
      'scan1.jpg',
      'scan2.jpg',
      'scan3.jpg',
      'scan9.jpg',
      'scan10.jpg',
      'scan11.jpg',
    ]);
  });

  it('orders roll numbers of several schemes', () => {
    const numbers = ['R10', '2020-R01', 'R2', '2019-R30', 'C-123/A07', '2019-R4', 'r9'];
    expect([...numbers].sort(compareNatural)).toEqual([
      '2019-R4',
      '2019-R30',
      '2020-R01',
      'C-123/A07',
      'R2',
      'r9',
      'R10',
    ]);
  });

  it('compares numbers too long for a computer number', () => {
    expect(compareNatural('9'.repeat(40), `1${'0'.repeat(40)}`)).toBe(-1);
  });

  it('counts in the digits of another script', () => {
    expect(compareNatural('roll٢', 'roll١٠')).toBe(-1);
  });

  it('keeps names apart that differ in leading zeros alone', () => {
    expect(compareNatural('scan1', 'scan01')).not.toBe(0);
  });

  const name = fc.oneof(
    fc.string({ unit: fc.constantFrom(...'aAbäÄ_- 0129٠٢７京'), maxLength: 8 }),
    fc.string({ unit: 'binary', maxLength: 8 }),
  );

  it('is the mirror of itself when the names change places', () => {
    fc.assert(
      fc.property(name, name, (a, b) => {
        expect(compareNatural(a, b) + compareNatural(b, a)).toBe(0);
      }),
    );
  });

  it('calls only the same text equal', () => {
    fc.assert(
      fc.property(name, name, (a, b) => {
        expect(compareNatural(a, b) === 0).toBe(a === b);
      }),
    );
  });

  it('never runs in a circle', () => {
    fc.assert(
      fc.property(name, name, name, (a, b, c) => {
        const [first = '', second = '', third = ''] = [a, b, c].sort(compareNatural);
        expect(compareNatural(first, second)).toBeLessThanOrEqual(0);
        expect(compareNatural(second, third)).toBeLessThanOrEqual(0);
        expect(compareNatural(first, third)).toBeLessThanOrEqual(0);
      }),
    );
  });
});
