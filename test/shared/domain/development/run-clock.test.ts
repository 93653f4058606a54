import { describe, expect, it } from 'vitest';
import type { PlannedStep } from '../../../../shared/domain/development/planned-step.ts';
import { planDevelopment } from '../../../../shared/domain/development/plan-development.ts';
import { C41_TWO_BATH } from '../../../../shared/domain/development/processes/c41-two-bath.ts';
import type { RunEvent } from '../../../../shared/domain/development/run-clock.ts';
import { recordRun } from '../../../../shared/domain/development/run-clock.ts';

const answer = planDevelopment({ process: C41_TWO_BATH, developerC: null, stops: 0, baths: [] });
if (!answer.ok) throw new Error(answer.failure.code);
const plan: readonly PlannedStep[] = answer.plan.steps;

const T0 = Date.parse('2024-05-01T18:00:00Z');
const at = (id: number, seconds: number, corrects: number | null = null) => ({
  id,
  atMs: T0 + seconds * 1000,
  corrects,
});

const preSoak: RunEvent = { ...at(1, 0), kind: 'step_started', step: 0 };
const developer: RunEvent = { ...at(2, 70), kind: 'step_started', step: 1 };
const bleachFix: RunEvent = { ...at(9, 265), kind: 'step_started', step: 2 };

const spans = (events: readonly RunEvent[]) =>
  recordRun(plan, events).steps.map((step) => [
    step.step,
    (step.startedMs - T0) / 1000,
    step.endedMs === null ? null : (step.endedMs - T0) / 1000,
  ]);

describe('record of a run', () => {
  it('ends a step when the next is poured in', () => {
    expect(spans([preSoak, developer, bleachFix])).toEqual([
      [0, 0, 70],
      [1, 70, 265],
      [2, 265, null],
    ]);
  });

  it('ends a step when it is poured out', () => {
    expect(spans([preSoak, { ...at(2, 62), kind: 'step_ended' }])).toEqual([[0, 0, 62]]);
  });

  it('goes by the order of recording, not of the list', () => {
    expect(spans([bleachFix, developer, preSoak])).toEqual(spans([preSoak, developer, bleachFix]));
  });

  it('adds time to the step under way only', () => {
    const events: RunEvent[] = [
      preSoak,
      developer,
      { ...at(3, 100), kind: 'time_added', seconds: 12 },
      { ...at(4, 110), kind: 'time_added', seconds: -2 },
      bleachFix,
    ];
    expect(recordRun(plan, events).steps.map((step) => step.addedSeconds)).toEqual([0, 10, 0]);
  });

  it('keeps temperatures with the seconds of their step', () => {
    const events: RunEvent[] = [
      { ...at(1, -30), kind: 'temperature_read', celsius: 38.1 },
      { ...at(2, 0), kind: 'step_started', step: 1 },
      { ...at(3, 45), kind: 'temperature_read', celsius: 37.6 },
    ];
    const record = recordRun(plan, events);
    expect(record.readingsBetween).toEqual([{ atMs: T0 - 30_000, celsius: 38.1 }]);
    expect(record.steps[0]?.readings).toEqual([{ atSeconds: 45, celsius: 37.6 }]);
  });

  it('puts a correction in the place of what it corrects', () => {
    const events: RunEvent[] = [
      preSoak,
      developer,
      { ...at(3, 90), kind: 'temperature_read', celsius: 73.6 },
      { ...at(4, 90, 3), kind: 'temperature_read', celsius: 37.6 },
      { ...at(5, 66, 2), kind: 'step_started', step: 1 },
    ];
    const [, step] = recordRun(plan, events).steps;
    expect(step?.startedMs).toBe(T0 + 66_000);
    expect(step?.readings).toEqual([{ atSeconds: 24, celsius: 37.6 }]);
  });

  it('gives the step back when pouring in the next was a slip', () => {
    const events: RunEvent[] = [preSoak, developer, { ...at(3, 71, 2), kind: 'taken_back' }];
    expect(spans(events)).toEqual([[0, 0, null]]);
  });

  it('lets a correction be corrected', () => {
    const events: RunEvent[] = [
      preSoak,
      { ...at(2, 10), kind: 'time_added', seconds: 30 },
      { ...at(3, 10, 2), kind: 'time_added', seconds: 20 },
      { ...at(4, 10, 3), kind: 'time_added', seconds: 10 },
    ];
    expect(recordRun(plan, events).steps[0]?.addedSeconds).toBe(10);
  });

  it('stops at the end, whatever comes after', () => {
    const events: RunEvent[] = [
      preSoak,
      { ...at(2, 30), kind: 'run_aborted' },
      { ...at(3, 40), kind: 'step_started', step: 1 },
    ];
    expect(spans(events)).toEqual([[0, 0, 30]]);
    expect(recordRun(plan, events).ending).toBe('aborted');
  });

  it('goes on when the end is taken back', () => {
    const events: RunEvent[] = [
      preSoak,
      { ...at(2, 30), kind: 'run_aborted' },
      { ...at(3, 32, 2), kind: 'taken_back' },
    ];
    expect(recordRun(plan, events).ending).toBeNull();
    expect(spans(events)).toEqual([[0, 0, null]]);
  });

  it('does not let anything happen before what happened before it', () => {
    const events: RunEvent[] = [preSoak, { ...at(2, -3600), kind: 'step_ended' }];
    expect(spans(events)).toEqual([[0, 0, 0]]);
    expect(recordRun(plan, events).wentBack).toBe(true);
  });

  it('takes a recorded shift of the clock out of the times', () => {
    // The clock is put forward by an hour 20 s into the pre-soak, which ends 62 s after it began.
    const events: RunEvent[] = [
      preSoak,
      { ...at(2, 3620), kind: 'clock_shifted', seconds: 3600 },
      { ...at(3, 3662), kind: 'step_ended' },
    ];
    expect(spans(events)).toEqual([[0, 0, 62]]);
    expect(recordRun(plan, events).wentBack).toBe(false);
  });

  it('leaves alone a step that the plan does not know', () => {
    expect(spans([preSoak, { ...at(2, 10), kind: 'step_started', step: 99 }])).toEqual([[0, 0, null]]);
  });
});
