import { describe, expect, it } from 'vitest';
import type { FrameCast } from '../../../../shared/domain/colour/cast-frame.ts';
import { labOfGrey } from '../../../../shared/domain/colour/grey.ts';
import type { GreyRatio } from '../../../../shared/domain/colour/grey.ts';
import { castOfRoll } from '../../../../shared/domain/colour/cast-roll.ts';
import type { RollCast } from '../../../../shared/domain/colour/cast-roll.ts';
import { compareWithStock } from '../../../../shared/domain/colour/compare-with-stock.ts';
import type { StockRoll } from '../../../../shared/domain/colour/compare-with-stock.ts';
import { sayRoll } from '../../../../shared/domain/colour/cast-words.ts';

/** A frame whose greys lie at the given ratios. */
function frameAt(grey: GreyRatio, confidence = 0.6, blackL = 8): FrameCast {
  return { note: 'measured', confidence, grey, ...labOfGrey(grey), tones: null, blackL, whiteL: 92 };
}

const SILENT: FrameCast = {
  note: 'no-neutral',
  confidence: 0,
  grey: null,
  a: null,
  b: null,
  tones: null,
  blackL: 5,
  whiteL: 60,
};

/** Frames scattered evenly about a grey by ± 0.08. */
function framesAbout({ u, v }: GreyRatio, count = 12, blackL = 8): FrameCast[] {
  return Array.from({ length: count }, (_, at) => {
    const off = ((at % 5) - 2) * 0.04;
    return frameAt({ u: u + off, v: v - off }, 0.6, blackL);
  });
}

function rollAbout(grey: GreyRatio, blackL = 8): RollCast {
  const cast = castOfRoll(framesAbout(grey, 12, blackL));
  if (cast === null) throw new Error('no cast');
  return cast;
}

function stock(name: string, grey: GreyRatio, good: boolean | null = null, blackL = 8): StockRoll {
  return { roll: name, cast: rollAbout(grey, blackL), inDate: good, onTemperature: good };
}

/** Hand: with less green light both ratios to green rise alike. */
const MAGENTA: GreyRatio = { u: 0.25, v: 0.25 };
const NONE: GreyRatio = { u: 0, v: 0 };

describe('cast of a roll', () => {
  it('lies in the middle of its frames', () => {
    const roll = castOfRoll(framesAbout({ u: 0.1, v: -0.2 }, 15));
    expect(roll?.grey.u).toBeCloseTo(0.1, 6);
    expect(roll?.grey.v).toBeCloseTo(-0.2, 6);
  });

  it('names the frame that lies apart', () => {
    const frames = framesAbout(NONE, 12).with(3, frameAt({ u: 0.9, v: 0.5 }));
    expect(castOfRoll(frames)?.outliers).toEqual([3]);
  });

  it('is hardly moved by one such frame', () => {
    const frames = framesAbout(NONE, 12).with(3, frameAt({ u: 0.9, v: 0.5 }));
    expect(Math.abs(castOfRoll(frames)?.grey.u ?? 1)).toBeLessThan(0.03);
  });

  it('leaves out frames without a neutral', () => {
    expect(castOfRoll([...framesAbout(NONE, 6), SILENT, SILENT])?.frames).toBe(6);
  });

  it('is not given for three frames', () => {
    expect(castOfRoll(framesAbout(NONE, 3))).toBeNull();
  });
});

describe('a roll against its stock', () => {
  const others = ['a', 'b', 'c', 'd'].map((name) => stock(name, NONE));

  it('finds a shift to magenta', () => {
    const found = compareWithStock('x', [...others, stock('x', MAGENTA)]);
    expect(found).toMatchObject({ stands: true, direction: 'magenta', rolls: 4, measure: 'all-rolls' });
  });

  it('finds nothing between like rolls', () => {
    expect(compareWithStock('x', [...others, stock('x', { u: 0.02, v: 0.01 })])?.stands).toBe(false);
  });

  it('leaves the roll itself out of the measure', () => {
    const alone = compareWithStock('x', [...others, stock('x', MAGENTA)]);
    const noisy = compareWithStock('a', [...others, stock('x', MAGENTA)]);
    expect(alone?.rolls).toBe(4);
    expect(noisy?.stands).toBe(false);
  });

  it('measures by rolls in date and on temperature where there are three', () => {
    const mixed = [
      ...['a', 'b', 'c'].map((name) => stock(name, NONE, true)),
      ...['d', 'e', 'f', 'g'].map((name) => stock(name, MAGENTA, false)),
    ];
    const found = compareWithStock('x', [...mixed, stock('x', MAGENTA)]);
    expect(found).toMatchObject({ measure: 'good-rolls', rolls: 3, stands: true });
  });

  it('has no answer with two other rolls', () => {
    expect(compareWithStock('x', [...others.slice(0, 2), stock('x', MAGENTA)])).toBeNull();
  });
});

describe('words for a roll', () => {
  const others = ['a', 'b', 'c', 'd'].map((name) => stock(name, NONE));

  it('says that there are not enough rolls', () => {
    expect(sayRoll(rollAbout(MAGENTA), null)).toContain('Not enough rolls of this stock');
  });

  it('says that there are too few frames', () => {
    expect(sayRoll(null, null)).toContain('Too few frames');
  });

  it('says which way and how many rolls', () => {
    const own = stock('x', MAGENTA);
    const words = sayRoll(own.cast, compareWithStock('x', [...others, own]));
    expect(words).toMatch(/^Against 4 other rolls of this stock: a strong shift to magenta \(Δa\* \+/);
  });

  it('says that nothing stands out', () => {
    const own = stock('x', NONE);
    expect(sayRoll(own.cast, compareWithStock('x', [...others, own]))).toContain('No shift that stands out');
  });

  it('says that blacks are lifted', () => {
    const own = stock('x', NONE, null, 24);
    expect(sayRoll(own.cast, compareWithStock('x', [...others, own]))).toContain(
      'Blacks are lifted by 16 L*',
    );
  });

  it('never speaks of a cause', () => {
    const own = stock('x', MAGENTA);
    expect(sayRoll(own.cast, compareWithStock('x', [...others, own]))).not.toMatch(/caus|because|due to/i);
  });
});
