import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readCodebook, writeCodebook } from '../../../../shared/domain/look-up/codebook.ts';
import { variedCell } from '../../../../shared/domain/look-up/probes.ts';
import { HALF_LENGTH, swapHalf } from '../../../../shared/domain/look-up/variants.ts';

const shipped = readFileSync(new URL('../../../../assets/codebook.bin', import.meta.url));

describe('codebook', () => {
  it('comes back as it was written, within half a step of 1/65535', () => {
    const words = Float32Array.from({ length: 32 * HALF_LENGTH }, (_, i) => (i % 97) / 97);
    const mean = Float32Array.from({ length: 128 }, (_, i) => i / 128);
    const read = readCodebook(writeCodebook(7, words, mean));
    expect(read).toMatchObject({ ok: true, value: { version: 7, size: 32 } });
    if (!read.ok) return;
    for (let word = 0; word < 32; word++) {
      for (let place = 0; place < HALF_LENGTH; place++) {
        const value = read.value.columns[place * 32 + word] ?? 0;
        expect(Math.abs(value - (words[word * HALF_LENGTH + place] ?? 0))).toBeLessThan(0.6 / 65_535);
      }
    }
  });

  it('refuses files that are something else or cut short', () => {
    expect(readCodebook(new Uint8Array(0))).toEqual({ ok: false, reason: 'not_a_codebook' });
    expect(readCodebook(new Uint8Array(500))).toEqual({ ok: false, reason: 'not_a_codebook' });
    expect(readCodebook(shipped.subarray(0, shipped.length - 2))).toEqual({
      ok: false,
      reason: 'not_a_codebook',
    });
  });

  it('that ships has the swapped form of each word half a book further on', () => {
    const read = readCodebook(shipped);
    expect(read.ok).toBe(true);
    if (!read.ok) return;
    const { size, columns } = read.value;
    const word = (number: number) =>
      Float32Array.from({ length: HALF_LENGTH }, (_, place) => columns[place * size + number] ?? 0);
    for (let number = 0; number < size / 2; number++) {
      expect(swapHalf(word(number))).toEqual(word(number + size / 2));
    }
  });

  it('leads back to the same cell when a variant is applied twice', () => {
    for (const negative of [false, true]) {
      for (const mirrored of [false, true]) {
        for (const cell of [0, 5, 1023, 1024 * 700 + 3, 1024 * 1024 - 1]) {
          const variant = { negative, mirrored };
          expect(variedCell(variedCell(cell, 1024, variant), 1024, variant)).toBe(cell);
        }
      }
    }
  });
});
