import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { countOnes, mix, signBits } from '../../../../shared/domain/look-up/mixing.ts';

const vector = fc
  .array(fc.float({ min: 0, max: 1, noNaN: true }), { minLength: 128, maxLength: 128 })
  .map((values) => Float32Array.from(values));

describe('mixing of descriptors', () => {
  it('counts the ones that the binary digits show', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 0xffffffff }), (bits) => {
        expect(countOnes(bits)).toBe(bits.toString(2).replaceAll('0', '').length);
      }),
    );
  });

  it('keeps distances, times 128', () => {
    // A Walsh-Hadamard transform of 128 values multiplies lengths by √128; two of them by 128.
    fc.assert(
      fc.property(vector, vector, (one, other) => {
        const before = Math.hypot(...one.map((value, i) => value - (other[i] ?? 0)));
        mix(one);
        mix(other);
        const after = Math.hypot(...one.map((value, i) => value - (other[i] ?? 0)));
        expect(after).toBeCloseTo(before * 128, 1);
      }),
    );
  });

  it('sets the bit of each value above the origin', () => {
    const values = Float32Array.from({ length: 128 }, (_, i) => (i === 33 || i === 63 ? 1 : -1));
    // Places 32 to 63: 33 is bit 1, 63 is bit 31.
    expect(signBits(values, new Float32Array(128), 32)).toBe(2 + 2 ** 31);
  });
});
