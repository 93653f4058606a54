import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { naturalKey } from '../../../../shared/domain/numbering/natural-key.ts';
import { compareNatural } from '../../../../shared/domain/numbering/natural-order.ts';

/** Order of two texts as the database has it: by code point, which is also the order of their UTF-8 bytes. */
function compareBytes(a: string, b: string): number {
  return Math.sign(Buffer.compare(Buffer.from(a), Buffer.from(b)));
}

const name = fc.string({ unit: fc.constantFrom(...'0019aAbZ-/ .éł京'), maxLength: 8 });

describe('natural key', () => {
  it('sorts rolls as a person counts', () => {
    const rolls = ['2026-10', '2026-2', 'R10', 'r2', '2025-100', 'R2a'];
    const sorted = [...rolls].sort((a, b) => compareBytes(naturalKey(a), naturalKey(b)));
    expect(sorted).toEqual(['2025-100', '2026-2', '2026-10', 'r2', 'R2a', 'R10']);
  });

  it('orders any two names as compareNatural does', () => {
    fc.assert(
      fc.property(name, name, (a, b) => {
        expect(compareBytes(naturalKey(a), naturalKey(b))).toBe(compareNatural(a, b));
      }),
    );
  });
});
