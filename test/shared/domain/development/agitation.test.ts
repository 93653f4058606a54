import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Agitation } from '../../../../shared/domain/development/agitation.ts';
import { agitationSpans, pourOutAt } from '../../../../shared/domain/development/agitation.ts';
import { ruleOfThumb } from '../../../../shared/domain/development/source.ts';

const source = ruleOfThumb('test');

function scheme(firstSeconds: number, everySeconds: number, forSeconds: number): Agitation {
  return { scheme: 'intermittent', firstSeconds, everySeconds, forSeconds, turns: null, source };
}

const starts = (agitation: Agitation, seconds: number) =>
  agitationSpans(agitation, seconds).map((span) => [span.fromSeconds, span.toSeconds]);

describe('agitation', () => {
  it('turns at 0:00 to 0:30 and at 1:00, 1:30 … 3:00 in a developer of 3:31', () => {
    // Half a minute without rest and then every half minute, counted by hand; pouring out from 3:21.
    expect(starts(scheme(30, 30, 5), 211)).toEqual([
      [0, 30],
      [60, 65],
      [90, 95],
      [120, 125],
      [150, 155],
      [180, 185],
    ]);
  });

  it('turns once every minute after the first half minute', () => {
    // US Navy NAVEDTRA 14209: 30 s at the start, then 5 s once every minute.
    expect(starts(scheme(30, 60, 5), 240)).toEqual([
      [0, 30],
      [60, 65],
      [120, 125],
      [180, 185],
    ]);
  });

  it('has the first ten seconds of every minute where the scheme opens with ten', () => {
    expect(starts(scheme(10, 60, 10), 200)).toEqual([
      [0, 10],
      [60, 70],
      [120, 130],
      [180, 190],
    ]);
  });

  it('goes on without rest up to the pouring out', () => {
    expect(starts({ scheme: 'continuous', source }, 30)).toEqual([[0, 20]]);
  });

  it('has nothing to say where the scheme is none', () => {
    expect(agitationSpans({ scheme: 'none', source }, 240)).toEqual([]);
  });

  it('pours out ten seconds before the end', () => {
    // NAVEDTRA 14209, Fig. 10-18.
    expect(pourOutAt(211)).toBe(201);
  });

  it('pours out of a ten second step at half of it', () => {
    expect(pourOutAt(10)).toBe(5);
  });

  it('never overlaps itself nor the pouring out', () => {
    const whole = (max: number) => fc.integer({ min: 1, max });
    fc.assert(
      fc.property(whole(90), whole(120), whole(20), whole(2000), (first, every, length, seconds) => {
        fc.pre(every > length);
        let last = 0;
        for (const span of agitationSpans(scheme(first, every, length), seconds)) {
          expect(span.fromSeconds).toBeGreaterThanOrEqual(last);
          expect(span.toSeconds).toBeGreaterThan(span.fromSeconds);
          expect(span.toSeconds).toBeLessThanOrEqual(pourOutAt(seconds));
          last = span.toSeconds;
        }
      }),
    );
  });
});
