import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { ExtensionRule } from '../../../../shared/domain/development/extension.ts';
import { applyExtension } from '../../../../shared/domain/development/extension.ts';
import { fromMemory } from '../../../../shared/domain/development/source.ts';

const SOURCE = fromMemory('test');
const TWO_PERCENT: ExtensionRule = { kind: 'percent', percentPerRoll: 2, source: SOURCE };
// Steps as from memory: 3:15 for rolls 1 to 4, 3:30 for 5 to 8, 3:45 for 9 to 12.
const STEPS: ExtensionRule = {
  kind: 'steps',
  rows: [
    { fromRoll: 1, seconds: 195 },
    { fromRoll: 5, seconds: 210 },
    { fromRoll: 9, seconds: 225 },
  ],
  source: SOURCE,
};

function extended(...args: Parameters<typeof applyExtension>): number | string {
  const answer = applyExtension(...args);
  return answer.ok ? answer.value.value : answer.reason;
}

describe('time added for film already through the bath', () => {
  it('proposes 3:46 for the ninth roll at 2 % per roll on 3:15', () => {
    // By hand: 195 × (1 + 0.02 × 8) = 226.2 s, 3:46.
    expect(extended(195, 8, TWO_PERCENT)).toBeCloseTo(226.2, 9);
  });

  it('proposes 243.6 s after eight rolls on 3:30', () => {
    expect(extended(210, 8, TWO_PERCENT)).toBeCloseTo(243.6, 9);
  });

  it('proposes 3:31 after four rolls and after 4.2', () => {
    // By hand: 195 × 1.08 = 210.6 and 195 × 1.084 = 211.38.
    expect(Math.round(Number(extended(195, 4, TWO_PERCENT)))).toBe(211);
    expect(Math.round(Number(extended(195, 4.2, TWO_PERCENT)))).toBe(211);
  });

  it.each([
    [0, 195],
    [3.9, 195],
    [4, 210],
    [7, 210],
    [8, 225],
    [20, 225],
  ])('reads the table of steps after %d rolls as %d s', (rolls, seconds) => {
    expect(extended(195, rolls, STEPS)).toBeCloseTo(seconds, 9);
  });

  it('carries the steps over to another time as a ratio', () => {
    // By hand: a push to 3:45 on its fifth roll, 225 × 210 / 195 = 242.31.
    expect(extended(225, 4, STEPS)).toBeCloseTo(242.31, 2);
  });

  it('leaves a fresh bath alone', () => {
    expect(applyExtension(195, 0, TWO_PERCENT)).toEqual({ ok: true, value: { value: 195, lines: [] } });
  });

  it('refuses rolls below nought', () => {
    expect(extended(195, -1, TWO_PERCENT)).toBe('rolls_not_real');
  });

  it('refuses a table that shortens or has no first roll', () => {
    const falling = {
      ...STEPS,
      rows: [
        { fromRoll: 1, seconds: 210 },
        { fromRoll: 5, seconds: 195 },
      ],
    };
    expect(extended(195, 5, falling)).toBe('extension_rule_not_real');
    expect(extended(195, 5, { ...STEPS, rows: [{ fromRoll: 2, seconds: 195 }] })).toBe(
      'extension_rule_not_real',
    );
  });

  it('never shortens as more film goes through', () => {
    const rolls = fc.double({ min: 0, max: 40, noNaN: true });
    fc.assert(
      fc.property(rolls, rolls, fc.constantFrom(TWO_PERCENT, STEPS), (a, b, rule) => {
        expect(extended(195, Math.max(a, b), rule)).toBeGreaterThanOrEqual(
          Number(extended(195, Math.min(a, b), rule)),
        );
      }),
    );
  });
});
