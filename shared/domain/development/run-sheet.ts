import type { AgitationSpan } from './agitation.ts';
import { agitationSpans, pourOutAt } from './agitation.ts';
import type { PlannedStep } from './planned-step.ts';
import type { RunEvent, RunRecord, StepRecord } from './run-clock.ts';
import { recordRun } from './run-clock.ts';

/** What to do with the tank now, and how long until that changes; seconds. */
type TankCue =
  | { readonly action: 'agitate'; readonly turns: number | null; readonly secondsLeft: number }
  /** `nextTurns` and `nextAtSeconds`: the agitation that follows; null when pouring out follows. */
  | {
      readonly action: 'stand';
      readonly secondsLeft: number;
      readonly nextAtSeconds: number | null;
      readonly nextTurns: number | null;
    }
  | { readonly action: 'pour_out'; readonly secondsLeft: number }
  | { readonly action: 'next_bath' };

/** The step under way. Seconds count from pouring in. */
type RunningStep = {
  readonly record: StepRecord;
  /** Planned time and what was added. */
  readonly lengthSeconds: number;
  readonly elapsedSeconds: number;
  /** 0 once the time is up. */
  readonly leftSeconds: number;
  /** How long the time has been up. */
  readonly overSeconds: number;
  readonly pourOutAtSeconds: number;
  readonly cue: TankCue;
};

/** What the run sheet shows at a moment. */
export type RunState = {
  /** `ready`: nothing poured yet. `between`: one step is out, the next not in. */
  readonly phase: 'ready' | 'running' | 'between' | 'finished' | 'aborted';
  readonly running: RunningStep | null;
  /** Index of the step that comes next; null after the last and after the end. */
  readonly nextStep: number | null;
  readonly record: RunRecord;
  /** The clock stands before something that already happened; the time shown is that of the last event. */
  readonly clockInDoubt: boolean;
};

/** Something that falls due in a step, to be said or sounded. */
export type RunCue = {
  readonly step: number;
  readonly atSeconds: number;
  readonly kind: 'agitate' | 'stand' | 'pour_out' | 'time_up';
};

function tankCue(spans: readonly AgitationSpan[], elapsed: number, length: number): TankCue {
  if (elapsed >= length) return { action: 'next_bath' };
  const pourOut = pourOutAt(length);
  if (elapsed >= pourOut) return { action: 'pour_out', secondsLeft: length - elapsed };
  const now = spans.find((span) => span.fromSeconds <= elapsed && elapsed < span.toSeconds);
  if (now !== undefined) {
    return { action: 'agitate', turns: now.turns, secondsLeft: now.toSeconds - elapsed };
  }
  const next = spans.find((span) => span.fromSeconds > elapsed);
  return {
    action: 'stand',
    secondsLeft: (next?.fromSeconds ?? pourOut) - elapsed,
    nextAtSeconds: next?.fromSeconds ?? null,
    nextTurns: next?.turns ?? null,
  };
}

function lengthOf(record: StepRecord): number {
  return Math.max(0, record.plannedSeconds + record.addedSeconds);
}

function runningStep(plan: readonly PlannedStep[], record: StepRecord, nowMs: number): RunningStep {
  const lengthSeconds = lengthOf(record);
  const elapsedSeconds = (nowMs - record.startedMs) / 1000;
  const spans = agitationSpans(plan[record.step]?.agitation ?? null, lengthSeconds);
  return {
    record,
    lengthSeconds,
    elapsedSeconds,
    leftSeconds: Math.max(0, lengthSeconds - elapsedSeconds),
    overSeconds: Math.max(0, elapsedSeconds - lengthSeconds),
    pourOutAtSeconds: pourOutAt(lengthSeconds),
    cue: tankCue(spans, elapsedSeconds, lengthSeconds),
  };
}

/**
 * What the run sheet shows at `nowMs` (wall clock, milliseconds since 1970 UTC). It follows from plan, events and
 * clock alone, so a reload or a crash changes nothing; a machine that slept simply asks later. When the clock was
 * set back without a recorded shift, time stands at the last event until the clock has caught up.
 */
export function runStateAt(
  plan: readonly PlannedStep[],
  events: readonly RunEvent[],
  nowMs: number,
): RunState {
  const record = recordRun(plan, events);
  const saidMs = nowMs - record.shiftMs;
  const atMs = Math.max(saidMs, record.latestMs ?? saidMs);
  const last = record.steps.at(-1);
  const running =
    record.ending === null && last !== undefined && last.endedMs === null
      ? runningStep(plan, last, atMs)
      : null;
  const following = last === undefined ? 0 : last.step + 1;
  return {
    phase: record.ending ?? (last === undefined ? 'ready' : running === null ? 'between' : 'running'),
    running,
    nextStep: record.ending === null && following < plan.length ? following : null,
    record,
    clockInDoubt: record.wentBack || saidMs < atMs,
  };
}

/** Everything that falls due in a step of a run, in order. */
function cuesOf(plan: readonly PlannedStep[], record: StepRecord): readonly RunCue[] {
  const { step } = record;
  const length = lengthOf(record);
  const pourOut = pourOutAt(length);
  const turning = agitationSpans(plan[step]?.agitation ?? null, length).flatMap((span): RunCue[] => [
    { step, atSeconds: span.fromSeconds, kind: 'agitate' },
    ...(span.toSeconds < pourOut ? [{ step, atSeconds: span.toSeconds, kind: 'stand' } as const] : []),
  ]);
  return [
    ...turning,
    { step, atSeconds: pourOut, kind: 'pour_out' },
    { step, atSeconds: length, kind: 'time_up' },
  ];
}

/**
 * The cues that fall due after `fromMs` and not after `toMs` (wall clock), in order. Asking twice in a row gives
 * every cue once; a machine that slept gets all it missed and can tell by `atSeconds` which are too old to sound.
 */
export function cuesBetween(
  plan: readonly PlannedStep[],
  events: readonly RunEvent[],
  fromMs: number,
  toMs: number,
): readonly RunCue[] {
  const { steps, shiftMs, ending } = recordRun(plan, events);
  if (ending !== null) return [];
  return steps.flatMap((record) =>
    cuesOf(plan, record).filter((cue) => {
      const dueMs = record.startedMs + cue.atSeconds * 1000 + shiftMs;
      const alive = record.endedMs === null || dueMs < record.endedMs + shiftMs;
      return alive && dueMs > fromMs && dueMs <= toMs;
    }),
  );
}
