import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  applyPush,
  BLACK_AND_WHITE_PUSH,
  C41_PUSH,
  compareShift,
} from '../../../../shared/domain/development/push-pull.ts';

function pushed(...args: Parameters<typeof applyPush>): number | string {
  const answer = applyPush(...args);
  return answer.ok ? answer.value.value : answer.reason;
}

describe('push and pull', () => {
  // https://www.brodie-tyrrell.org/wiki/index.php?C41Processing : 3:15, push 1 = 3:45, push 2 = 4:15, pull 1 = 2:45.
  it.each([
    [-1, 165],
    [0, 195],
    [1, 225],
    [2, 255],
  ])('gives C-41 at %d stops %d s', (stops, seconds) => {
    expect(pushed(195, stops, C41_PUSH)).toBe(seconds);
  });

  it('takes half a stop half way', () => {
    expect(pushed(195, 0.5, C41_PUSH)).toBe(210);
  });

  it('takes half a stop of a factor as its square root', () => {
    // By hand: √1.4 = 1.18322, 600 × 1.18322 = 709.93.
    expect(pushed(600, 0.5, BLACK_AND_WHITE_PUSH)).toBeCloseTo(709.93, 2);
  });

  it('keeps black-and-white within the rule of thumb', () => {
    // × 1.3 to 1.5 per stop of push, 15 to 20 % less per stop of pull (common practice, no source).
    const one = pushed(600, 1, BLACK_AND_WHITE_PUSH);
    const pull = pushed(600, -1, BLACK_AND_WHITE_PUSH);
    expect(one).toBeGreaterThanOrEqual(600 * 1.3);
    expect(one).toBeLessThanOrEqual(600 * 1.5);
    expect(pull).toBeGreaterThanOrEqual(600 * 0.8);
    expect(pull).toBeLessThanOrEqual(600 * 0.85);
  });

  it('refuses stops beyond the table', () => {
    expect(pushed(195, 3, C41_PUSH)).toBe('shift_outside_table');
    expect(pushed(195, -2, C41_PUSH)).toBe('shift_outside_table');
  });

  it('refuses a shift where the process has no table', () => {
    expect(pushed(195, 1, null)).toBe('push_table_missing');
  });

  it('refuses a pull that eats the whole time', () => {
    expect(pushed(30, -1, C41_PUSH)).toBe('push_leaves_no_time');
  });

  it('writes no line when nothing is shifted', () => {
    expect(applyPush(195, 0, null)).toEqual({ ok: true, value: { value: 195, lines: [] } });
  });

  it('lengthens with every further part of a stop', () => {
    const stops = fc.double({ min: -1, max: 2, noNaN: true });
    fc.assert(
      fc.property(stops, stops, fc.constantFrom(C41_PUSH, BLACK_AND_WHITE_PUSH), (a, b, table) => {
        fc.pre(b - a > 1e-6);
        expect(pushed(300, b, table)).toBeGreaterThan(Number(pushed(300, a, table)));
      }),
    );
  });
});

describe('exposure index and development shift', () => {
  it('says that 1600 on a 400 film developed one stop more was developed for less', () => {
    // By hand: log2(1600 / 400) = 2 stops exposed, 1 stop developed, one stop short.
    expect(compareShift(400, 1600, 1).value).toEqual({
      exposedStops: 2,
      differenceStops: -1,
      verdict: 'developed_for_less',
    });
  });

  it('says that a film at its box speed developed one stop more was developed for more', () => {
    expect(compareShift(400, 400, 1).value.verdict).toBe('developed_for_more');
  });

  it('takes 1250 on a 400 film with 1 2/3 stops as together', () => {
    // log2(1250 / 400) = 1.644; ISO numbers are rounded thirds of a stop.
    expect(compareShift(400, 1250, 5 / 3).value.verdict).toBe('together');
  });
});
