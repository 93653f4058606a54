import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { ExtensionRule } from '../../../../shared/domain/development/extension.ts';
import type { StepConditions } from '../../../../shared/domain/development/plan-step.ts';
import { planStepTime } from '../../../../shared/domain/development/plan-step.ts';
import type { Process, Step } from '../../../../shared/domain/development/process.ts';
import { BLACK_AND_WHITE } from '../../../../shared/domain/development/processes/black-and-white.ts';
import { C41_AS_PUBLISHED } from '../../../../shared/domain/development/processes/c41-as-published.ts';
import { C41_TWO_BATH } from '../../../../shared/domain/development/processes/c41-two-bath.ts';
import { fromMemory, yours } from '../../../../shared/domain/development/source.ts';

const TWO_PERCENT: ExtensionRule = { kind: 'percent', percentPerRoll: 2, source: fromMemory('test') };
const PLAIN: StepConditions = { celsius: null, stops: 0, rollsDone: 0, extension: null };

function stepOf(process: Process, key: string): Step {
  const step = process.steps.find((candidate) => candidate.key === key);
  if (step === undefined) throw new Error(key);
  return step;
}

const developer = stepOf(C41_TWO_BATH, 'developer');

function seconds(step: Step, family: Process['family'], conditions: Partial<StepConditions>) {
  const answer = planStepTime(step, family, { ...PLAIN, ...conditions });
  return answer.ok ? answer.value.value : answer.reason;
}

const c41 = (conditions: Partial<StepConditions>) => seconds(developer, 'colour_negative', conditions);

describe('time of a step', () => {
  it('is 3:15 for C-41 with nothing else to it', () => {
    expect(c41({})).toBe(195);
  });

  it('is 3:46 for the ninth roll at 2 % per roll', () => {
    // By hand: 195 × 1.16 = 226.2 s.
    expect(c41({ rollsDone: 8, extension: TWO_PERCENT })).toBe(226);
  });

  it('is 3:45 and 4:15 for a push of one stop and two', () => {
    expect([c41({ stops: 1 }), c41({ stops: 2 })]).toEqual([225, 255]);
  });

  it('carries a push over to another temperature as a ratio', () => {
    // By hand: 8:00 at 30 °C, × 225 / 195 = 553.85 s.
    expect(c41({ celsius: 30, stops: 1 })).toBe(554);
  });

  it('multiplies temperature, push and film already through', () => {
    // By hand: 480 × 225 / 195 × 1.08 = 598.15 s.
    expect(c41({ celsius: 30, stops: 1, rollsDone: 4, extension: TWO_PERCENT })).toBe(598);
  });

  it('is 3:36 at 36.9 °C between the rows of 30 and 37.8 °C', () => {
    // By hand: 195 × (480/195)^(0.9/7.8) = 195 × e^(0.900787 × 0.115385) = 195 × 1.10954 = 216.36 s.
    expect(c41({ celsius: 36.9 })).toBe(216);
  });

  it('is 3:43 at a mean of 37.3 °C after four rolls, where 37.8 °C asks for 3:31', () => {
    // By hand: 195 × (480/195)^(0.5/7.8) × 1.08 = 195 × e^(0.900787 × 0.064103) × 1.08 = 195 × 1.05944 × 1.08 = 223.12 s.
    expect(c41({ celsius: 37.3, rollsDone: 4, extension: TWO_PERCENT })).toBe(223);
    expect(c41({ rollsDone: 4, extension: TWO_PERCENT })).toBe(211);
  });

  it('refuses C-41 as published off its temperature', () => {
    const published = stepOf(C41_AS_PUBLISHED, 'developer');
    expect(seconds(published, 'colour_negative', { celsius: 36.9 })).toBe('outside_tolerance');
    expect(seconds(published, 'colour_negative', { celsius: 37.9 })).toBe(195);
  });

  it('refuses a temperature off the table', () => {
    expect([c41({ celsius: 20 }), c41({ celsius: 46 })]).toEqual(['below_range', 'above_range']);
  });

  it('asks for the time a film’s own table gives', () => {
    const step = stepOf(BLACK_AND_WHITE, 'developer');
    expect(seconds(step, 'black_and_white', {})).toBe('time_missing');
  });

  it('estimates black-and-white at another temperature from one time', () => {
    // By hand: 240 × e^−0.3 = 177.8 s; the chart behind it says 3:00 at 23 °C (from memory).
    const step = { ...stepOf(BLACK_AND_WHITE, 'developer'), time: { seconds: 240, source: yours('test') } };
    expect(seconds(step, 'black_and_white', { celsius: 23 })).toBe(178);
  });

  it('lengthens a bleach-fix that has a rule, whatever its temperature', () => {
    const step = stepOf(C41_TWO_BATH, 'bleach-fix');
    // By hand: 390 × 1.08 = 421.2 s.
    expect(seconds(step, 'colour_negative', { rollsDone: 4, extension: TWO_PERCENT })).toBe(421);
  });

  it('shows every line of the sum, with its source', () => {
    const answer = planStepTime(developer, 'colour_negative', {
      celsius: null,
      stops: 1,
      rollsDone: 4,
      extension: TWO_PERCENT,
    });
    if (!answer.ok) throw new Error(answer.reason);
    // By hand: 195, + 30 = 225, × 1.08 = 243, which is whole.
    expect(answer.value.lines.map((line) => [line.formula, line.value, line.source.kind])).toEqual([
      ['3:15', 195, 'published'],
      ['3:15 + 0:30', 225, 'reported'],
      ['3:45 × (1 + 2 % × 4)', 243, 'from memory'],
    ]);
  });

  it('ends its lines with its value', () => {
    const celsius = fc.double({ min: 25, max: 45, noNaN: true });
    const stops = fc.double({ min: -1, max: 2, noNaN: true });
    const rolls = fc.double({ min: 0, max: 12, noNaN: true });
    fc.assert(
      fc.property(celsius, stops, rolls, (celsius, stops, rollsDone) => {
        const conditions = { celsius, stops, rollsDone, extension: TWO_PERCENT };
        const answer = planStepTime(developer, 'colour_negative', conditions);
        if (!answer.ok) throw new Error(answer.reason);
        expect(answer.value.lines.at(-1)?.value).toBeCloseTo(answer.value.value, 8);
      }),
    );
  });
});
