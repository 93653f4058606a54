import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dilute, formatDilution, parseDilution } from '../../../../shared/domain/development/dilution.ts';

function volumes(text: string, volumeMl: number) {
  const dilution = parseDilution(text);
  if (!dilution.ok) return dilution.reason;
  const answer = dilute(dilution.value, volumeMl);
  return answer.ok ? answer.value.value : answer.reason;
}

describe('dilution', () => {
  // concentrate = V / (1 + n), by hand: 600/10, 600/51, 600/26.
  it.each([
    ['1+9', 60],
    ['1+50', 11.7647],
    ['1+25', 23.0769],
    ['1:9', 60],
    ['1 + 9', 60],
    ['stock', 600],
    ['1+0', 600],
    ['2+18', 60],
    ['1+9,0', 60],
  ])('measures 600 ml of %s', (text, concentrateMl) => {
    const answer = volumes(text, 600);
    if (typeof answer === 'string') throw new Error(answer);
    expect(answer.concentratesMl[0]).toBeCloseTo(concentrateMl, 4);
    expect(answer.waterMl).toBeCloseTo(600 - concentrateMl, 4);
  });

  it('measures two concentrates', () => {
    // By hand: 1+1+8 is tenths of a litre.
    expect(volumes('1+1+8', 1000)).toEqual({ concentratesMl: [100, 100], waterMl: 800 });
  });

  it.each(['', '1', 'one to nine', '1+', '-1+9', '1+9+', '1+9 ml'])('does not guess at “%s”', (text) => {
    expect(parseDilution(text)).toEqual({ ok: false, reason: 'dilution_not_readable' });
  });

  it('refuses a mixture without concentrate', () => {
    expect(parseDilution('0+9')).toEqual({ ok: false, reason: 'parts_not_positive' });
  });

  it('refuses a volume of nought', () => {
    expect(volumes('1+9', 0)).toBe('volume_not_positive');
  });

  it('adds up to the volume, and reads back its own text', () => {
    const part = fc.integer({ min: 1, max: 200 });
    fc.assert(
      fc.property(
        fc.array(part, { minLength: 1, maxLength: 3 }),
        part,
        part,
        (concentrates, water, litres) => {
          const dilution = { concentrates, water };
          expect(parseDilution(formatDilution(dilution))).toEqual({ ok: true, value: dilution });
          const answer = dilute(dilution, litres * 1000);
          if (!answer.ok) throw new Error(answer.reason);
          const { concentratesMl, waterMl } = answer.value.value;
          expect(concentratesMl.reduce((sum, ml) => sum + ml, waterMl)).toBeCloseTo(litres * 1000, 6);
        },
      ),
    );
  });
});
