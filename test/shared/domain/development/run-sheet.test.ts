import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { planDevelopment } from '../../../../shared/domain/development/plan-development.ts';
import { C41_TWO_BATH } from '../../../../shared/domain/development/processes/c41-two-bath.ts';
import type { RunEvent } from '../../../../shared/domain/development/run-clock.ts';
import { cuesBetween, runStateAt } from '../../../../shared/domain/development/run-sheet.ts';
import { fromMemory } from '../../../../shared/domain/development/source.ts';

// Developer 3:31: four rolls before at 2 % each, 195 × 1.08 = 210.6 s.
const extension = { kind: 'percent', percentPerRoll: 2, source: fromMemory('test') } as const;
const answer = planDevelopment({
  process: C41_TWO_BATH,
  developerC: null,
  stops: 0,
  baths: [{ stepKey: 'developer', rollsDone: 4, extension }],
});
if (!answer.ok) throw new Error(answer.failure.code);
const plan = answer.plan.steps;

const T0 = Date.parse('2024-05-01T18:00:00Z');
const ms = (seconds: number) => T0 + seconds * 1000;
const at = (id: number, seconds: number) => ({ id, atMs: ms(seconds), corrects: null });

// Second 0 is the developer going in; the pre-soak took the minute before.
const events: readonly RunEvent[] = [
  { ...at(1, -60), kind: 'step_started', step: 0 },
  { ...at(2, 0), kind: 'step_started', step: 1 },
];

const cueAt = (seconds: number) => runStateAt(plan, events, ms(seconds)).running?.cue;

describe('run sheet', () => {
  it('is ready before the first pour', () => {
    expect(runStateAt(plan, [], ms(0))).toMatchObject({ phase: 'ready', running: null, nextStep: 0 });
  });

  it('shows 2:07 gone and 1:24 left of 3:31', () => {
    const state = runStateAt(plan, events, ms(127));
    expect(state).toMatchObject({ phase: 'running', nextStep: 2, clockInDoubt: false });
    expect(state.running).toMatchObject({
      lengthSeconds: 211,
      elapsedSeconds: 127,
      leftSeconds: 84,
      overSeconds: 0,
      pourOutAtSeconds: 201,
    });
  });

  it('lets it stand for 0:23 at 2:07, then four turns at 2:30', () => {
    expect(cueAt(127)).toEqual({ action: 'stand', secondsLeft: 23, nextAtSeconds: 150, nextTurns: 4 });
  });

  it.each([
    [0, { action: 'agitate', turns: null, secondsLeft: 30 }],
    [29, { action: 'agitate', turns: null, secondsLeft: 1 }],
    [30, { action: 'stand', secondsLeft: 30, nextAtSeconds: 60, nextTurns: 4 }],
    [62, { action: 'agitate', turns: 4, secondsLeft: 3 }],
    [190, { action: 'stand', secondsLeft: 11, nextAtSeconds: null, nextTurns: null }],
    [201, { action: 'pour_out', secondsLeft: 10 }],
    [211, { action: 'next_bath' }],
  ])('says at %d s what to do', (seconds, cue) => {
    expect(cueAt(seconds)).toEqual(cue);
  });

  it('counts how long the time has been up and does not go on by itself', () => {
    const state = runStateAt(plan, events, ms(220));
    expect(state.phase).toBe('running');
    expect(state.running).toMatchObject({ leftSeconds: 0, overSeconds: 9 });
  });

  it('has more time at once when it is added', () => {
    const more: RunEvent[] = [...events, { ...at(3, 127), kind: 'time_added', seconds: 12 }];
    expect(runStateAt(plan, more, ms(127)).running).toMatchObject({
      lengthSeconds: 223,
      leftSeconds: 96,
      pourOutAtSeconds: 213,
    });
  });

  it('stands between two baths', () => {
    const out: RunEvent[] = [...events, { ...at(3, 211), kind: 'step_ended' }];
    expect(runStateAt(plan, out, ms(230))).toMatchObject({ phase: 'between', running: null, nextStep: 2 });
  });

  it('has nothing next after the last bath', () => {
    const last: RunEvent[] = [
      { ...at(1, 0), kind: 'step_started', step: 4 },
      { ...at(2, 60), kind: 'step_ended' },
    ];
    expect(runStateAt(plan, last, ms(61))).toMatchObject({ phase: 'between', nextStep: null });
  });

  it.each(['finished', 'aborted'] as const)('is %s when that was recorded', (ending) => {
    const ended: RunEvent[] = [...events, { ...at(3, 100), kind: `run_${ending}` }];
    expect(runStateAt(plan, ended, ms(500))).toMatchObject({ phase: ending, running: null, nextStep: null });
  });

  it('is at the right second after the machine slept', () => {
    expect(runStateAt(plan, events, ms(180)).running?.elapsedSeconds).toBe(180);
  });

  it('stands still and says so when the clock was set back', () => {
    const state = runStateAt(plan, events, ms(-3600));
    expect(state.clockInDoubt).toBe(true);
    expect(state.running?.elapsedSeconds).toBe(0);
  });

  it('goes on from the last reading when the clock was set back after it', () => {
    const read: RunEvent[] = [...events, { ...at(3, 45), kind: 'temperature_read', celsius: 37.6 }];
    const state = runStateAt(plan, read, ms(20));
    expect(state.clockInDoubt).toBe(true);
    expect(state.running?.elapsedSeconds).toBe(45);
  });

  it('keeps the second when the shift of the clock was recorded', () => {
    // Set back by an hour at 1:00; half a minute later the wall clock reads −58:30.
    const shifted: RunEvent[] = [...events, { ...at(3, -3540), kind: 'clock_shifted', seconds: -3600 }];
    const state = runStateAt(plan, shifted, ms(-3510));
    expect(state.clockInDoubt).toBe(false);
    expect(state.running?.elapsedSeconds).toBe(90);
  });
});

const cueTimes = (from: number, to: number) =>
  cuesBetween(plan, events, ms(from), ms(to)).map((cue) => [cue.atSeconds, cue.kind]);

describe('cues of the run sheet', () => {
  it('fall due through the developer of 3:31', () => {
    expect(cueTimes(-1, 211)).toEqual([
      [0, 'agitate'],
      [30, 'stand'],
      [60, 'agitate'],
      [65, 'stand'],
      [90, 'agitate'],
      [95, 'stand'],
      [120, 'agitate'],
      [125, 'stand'],
      [150, 'agitate'],
      [155, 'stand'],
      [180, 'agitate'],
      [185, 'stand'],
      [201, 'pour_out'],
      [211, 'time_up'],
    ]);
  });

  it('are heard once when asked about at the very second', () => {
    expect(cueTimes(59, 60)).toEqual([[60, 'agitate']]);
    expect(cueTimes(60, 61)).toEqual([]);
  });

  it('follow a clock that was set', () => {
    // Put forward by an hour at 0:40: the turn due at 1:00 is due when the wall clock reads 61:00.
    const shifted: RunEvent[] = [...events, { ...at(3, 3640), kind: 'clock_shifted', seconds: 3600 }];
    const due = cuesBetween(plan, shifted, ms(3659), ms(3660));
    expect(due.map((cue) => [cue.atSeconds, cue.kind])).toEqual([[60, 'agitate']]);
  });

  it('are heard no more once the step was left', () => {
    const left: RunEvent[] = [...events, { ...at(3, 100), kind: 'step_ended' }];
    expect(cuesBetween(plan, left, ms(100), ms(300))).toEqual([]);
  });

  it('are silent after the end', () => {
    const ended: RunEvent[] = [...events, { ...at(3, 100), kind: 'run_aborted' }];
    expect(cuesBetween(plan, ended, ms(0), ms(300))).toEqual([]);
  });
});

/** A run of any length: pours, readings, additions, in rising time, not ended. */
const runs = fc
  .array(
    fc.record({
      gap: fc.integer({ min: 0, max: 400 }),
      kind: fc.constantFrom('step_started', 'step_ended', 'time_added', 'temperature_read'),
      step: fc.integer({ min: 0, max: 4 }),
      value: fc.integer({ min: -20, max: 40 }),
    }),
    { maxLength: 15 },
  )
  .map((parts) => {
    let seconds = 0;
    return parts.map(({ gap, kind, step, value }, i): RunEvent => {
      seconds += gap;
      const when = at(i + 1, seconds);
      if (kind === 'step_started') return { ...when, kind, step };
      if (kind === 'time_added') return { ...when, kind, seconds: value };
      if (kind === 'temperature_read') return { ...when, kind, celsius: 20 + value };
      return { ...when, kind: 'step_ended' };
    });
  });
const moments = fc.integer({ min: 0, max: 8000 });

describe('run sheet, always', () => {
  it('shows the same after a reload, with the events read back from JSON in any order', () => {
    fc.assert(
      fc.property(runs, moments, (run, now) => {
        const kept: readonly RunEvent[] = structuredClone(run).toReversed();
        expect(runStateAt(plan, kept, ms(now))).toEqual(runStateAt(plan, run, ms(now)));
      }),
    );
  });

  it('never runs a step backwards as the clock goes on', () => {
    fc.assert(
      fc.property(runs, moments, moments, (run, a, b) => {
        const earlier = runStateAt(plan, run, ms(Math.min(a, b))).running;
        const later = runStateAt(plan, run, ms(Math.max(a, b))).running;
        expect(later === null).toBe(earlier === null);
        expect(later?.elapsedSeconds ?? 0).toBeGreaterThanOrEqual(earlier?.elapsedSeconds ?? 0);
      }),
    );
  });

  it('splits its length into gone and left until the time is up', () => {
    fc.assert(
      fc.property(runs, moments, (run, now) => {
        const running = runStateAt(plan, run, ms(now)).running;
        fc.pre(running !== null);
        const { elapsedSeconds, leftSeconds, overSeconds, lengthSeconds } = running;
        expect(elapsedSeconds + leftSeconds - overSeconds).toBeCloseTo(lengthSeconds, 9);
        expect(elapsedSeconds).toBeGreaterThanOrEqual(0);
      }),
    );
  });

  it('gives every cue once, however often it is asked', () => {
    fc.assert(
      fc.property(runs, moments, moments, moments, (run, a, b, c) => {
        const [from = 0, middle = 0, to = 0] = [a, b, c].toSorted((x, y) => x - y);
        const between = (x: number, y: number) => cuesBetween(plan, run, ms(x), ms(y));
        const order = (cues: ReturnType<typeof between>) =>
          cues.map((cue) => JSON.stringify(cue)).toSorted((x, y) => (x < y ? -1 : 1));
        expect(order([...between(from, middle), ...between(middle, to)])).toEqual(order(between(from, to)));
      }),
    );
  });
});
