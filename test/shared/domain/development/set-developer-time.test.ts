import { describe, expect, it } from 'vitest';
import { planDevelopment } from '../../../../shared/domain/development/plan-development.ts';
import { BLACK_AND_WHITE } from '../../../../shared/domain/development/processes/black-and-white.ts';
import { setDeveloperTime } from '../../../../shared/domain/development/set-developer-time.ts';
import { yours } from '../../../../shared/domain/development/source.ts';

const row = (celsius: number, seconds: number) => ({ celsius, seconds, source: yours('test') });

function developerSeconds(process: typeof BLACK_AND_WHITE, developerC: number | null) {
  const answer = planDevelopment({ process, developerC, stops: 0, baths: [] });
  return answer.ok ? answer.plan.developerSeconds : answer.failure.code;
}

describe('a film’s own developer time', () => {
  it('makes the general process usable', () => {
    expect(developerSeconds(BLACK_AND_WHITE, null)).toBe('time_missing');
    expect(developerSeconds(setDeveloperTime(BLACK_AND_WHITE, row(20, 540)), null)).toBe(540);
  });

  it('carries the tolerance to its own temperature', () => {
    const [developer] = setDeveloperTime(BLACK_AND_WHITE, row(24, 420)).steps;
    expect(developer?.temperature).toMatchObject({ aimC: 24, lowC: 23.5, highC: 24.5 });
  });

  it('interpolates in the film’s table instead of estimating', () => {
    // Kodak F-32, first row: 6½ min at 20 °C, 5 min at 23.89 °C; at 21.11 °C the table says 6 min, ± 0.13 min.
    const process = setDeveloperTime(BLACK_AND_WHITE, row(20, 390), [row(23.889, 300)]);
    expect(Math.abs(Number(developerSeconds(process, 21.111)) / 60 - 6)).toBeLessThan(0.13);
    expect(developerSeconds(process, 24)).toBe('above_range');
  });

  it('leaves the other steps as they are', () => {
    const process = setDeveloperTime(BLACK_AND_WHITE, row(20, 540));
    expect(process.steps.slice(1)).toEqual(BLACK_AND_WHITE.steps.slice(1));
  });
});
