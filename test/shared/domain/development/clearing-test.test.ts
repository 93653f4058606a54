import { describe, expect, it } from 'vitest';
import { judgeClearing } from '../../../../shared/domain/development/clearing-test.ts';

function judged(fresh: number, today: number) {
  const answer = judgeClearing(fresh, today);
  if (!answer.ok) throw new Error(answer.reason);
  return answer.value.value;
}

// Spent when the clearing time has doubled, fix for twice the clearing time: US Navy NAVEDTRA 14209.
describe('clearing test of a fixer', () => {
  it('calls a fixer spent that clears in 1:35 instead of 0:45', () => {
    // By hand: 95 / 45 = 2.11, fix for 190 s.
    const verdict = judged(45, 95);
    expect(verdict.ratio).toBeCloseTo(2.111, 3);
    expect(verdict.spent).toBe(true);
    expect(verdict.fixSeconds).toBe(190);
  });

  it('calls it spent at exactly twice', () => {
    expect(judged(45, 90).spent).toBe(true);
  });

  it('calls it good a second before that', () => {
    expect(judged(45, 89).spent).toBe(false);
  });

  it('refuses a time of nought', () => {
    expect(judgeClearing(0, 60)).toEqual({ ok: false, reason: 'time_not_positive' });
  });
});
