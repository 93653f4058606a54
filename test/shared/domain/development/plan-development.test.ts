import { describe, expect, it } from 'vitest';
import type { PlanRequest } from '../../../../shared/domain/development/plan-development.ts';
import { planDevelopment } from '../../../../shared/domain/development/plan-development.ts';
import { BLACK_AND_WHITE } from '../../../../shared/domain/development/processes/black-and-white.ts';
import { C41_AS_PUBLISHED } from '../../../../shared/domain/development/processes/c41-as-published.ts';
import { C41_TWO_BATH } from '../../../../shared/domain/development/processes/c41-two-bath.ts';
import { E6 } from '../../../../shared/domain/development/processes/without-times.ts';
import { fromMemory, yours } from '../../../../shared/domain/development/source.ts';

const request: PlanRequest = { process: C41_TWO_BATH, developerC: null, stops: 0, baths: [] };

function planned(change: Partial<PlanRequest>) {
  const answer = planDevelopment({ ...request, ...change });
  if (!answer.ok) throw new Error(answer.failure.code);
  return answer.plan;
}

function failure(change: Partial<PlanRequest>) {
  const answer = planDevelopment({ ...request, ...change });
  return answer.ok ? null : answer.failure;
}

function blackAndWhite(seconds: number) {
  return {
    ...BLACK_AND_WHITE,
    steps: BLACK_AND_WHITE.steps.map((step) =>
      step.key === 'developer' ? { ...step, time: { seconds, source: yours('test') } } : step,
    ),
  };
}

describe('plan of a development', () => {
  it('lays out every step with its time', () => {
    const baths = [
      {
        stepKey: 'developer',
        rollsDone: 4,
        extension: { kind: 'percent' as const, percentPerRoll: 2, source: fromMemory('test') },
      },
    ];
    // By hand: 1:00, 195 × 1.08 = 210.6 s, 6:30, 3:00, 1:00.
    const plan = planned({ baths });
    expect(plan.steps.map((step) => step.seconds)).toEqual([60, 211, 390, 180, 60]);
    expect([plan.developerKey, plan.developerSeconds, plan.totalSeconds]).toEqual(['developer', 211, 901]);
  });

  it('pushes the developer only', () => {
    expect(planned({ stops: 1 }).steps.map((step) => step.seconds)).toEqual([60, 225, 390, 180, 60]);
  });

  it('carries the tolerance along to the temperature chosen', () => {
    const temperature = planned({ developerC: 30 }).steps[1]?.temperature;
    expect(temperature?.aimC).toBe(30);
    expect(temperature?.lowC).toBeCloseTo(29.85, 9);
    expect(temperature?.highC).toBeCloseTo(30.15, 9);
  });

  it('warns of a jump to a bath that is warmer by more than 2.8 °C', () => {
    // US Army Ss05098: 5 °F = 2.8 °C. Developer at 30, bleach-fix from 35 °C on.
    expect(planned({ developerC: 30 }).warnings.map(({ code, stepKey }) => [code, stepKey])).toEqual([
      ['temperature_jump', 'developer'],
      ['temperature_jump', 'bleach-fix'],
    ]);
  });

  it('does not warn of the published temperatures', () => {
    expect(planned({}).warnings).toEqual([]);
  });

  it('warns of black-and-white development under five minutes', () => {
    expect(planned({ process: blackAndWhite(280) }).warnings.map(({ code }) => code)).toEqual([
      'short_development',
    ]);
    expect(planned({ process: blackAndWhite(300) }).warnings).toEqual([]);
  });

  it('names the step whose time is missing', () => {
    expect(failure({ process: E6 })).toEqual({
      code: 'time_missing',
      stepKey: '1-first-developer',
      range: null,
    });
  });

  it('names the temperatures that would do', () => {
    expect(failure({ developerC: 20 })).toEqual({
      code: 'below_range',
      stepKey: 'developer',
      range: { lowC: 25, highC: 45 },
    });
  });

  it('refuses a push that its table does not know', () => {
    expect(failure({ process: C41_AS_PUBLISHED, stops: 3 })?.code).toBe('shift_outside_table');
  });

  it('refuses a process without a developer', () => {
    const process = {
      ...C41_TWO_BATH,
      steps: C41_TWO_BATH.steps.filter((step) => step.bath !== 'developer'),
    };
    expect(failure({ process })?.code).toBe('no_developer');
  });
});
