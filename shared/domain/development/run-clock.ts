import type { TemperatureReading } from './effective-development.ts';
import type { PlannedStep } from './planned-step.ts';

/**
 * What happened in a run, in the order it was recorded (`id` rises). `atMs` is the wall clock, milliseconds since
 * 1970 UTC, of the moment the event speaks of; a correction carries the moment it corrects to. `corrects` names an
 * earlier event whose place this one takes. There is no pause: a bath goes on working while nobody looks.
 */
export type RunEvent = {
  readonly id: number;
  readonly atMs: number;
  readonly corrects: number | null;
} & (
  | { readonly kind: 'step_started'; readonly step: number }
  | { readonly kind: 'step_ended' }
  | { readonly kind: 'time_added'; readonly seconds: number }
  | { readonly kind: 'temperature_read'; readonly celsius: number }
  /** The machine's clock was set while it ran: forward is positive. Seen by comparing with a clock that only runs. */
  | { readonly kind: 'clock_shifted'; readonly seconds: number }
  /** Takes back the event it corrects and stands for nothing itself. */
  | { readonly kind: 'taken_back' }
  | { readonly kind: 'run_finished' }
  | { readonly kind: 'run_aborted' }
);

/** A step as it happened. Milliseconds are corrected for shifts of the clock, seconds count from pouring in. */
export type StepRecord = {
  readonly step: number;
  readonly startedMs: number;
  /** Null while the step runs. */
  readonly endedMs: number | null;
  /** The planned time and what was added on the way. */
  readonly plannedSeconds: number;
  readonly addedSeconds: number;
  readonly readings: readonly TemperatureReading[];
};

/** The record of a run that its events add up to. */
export type RunRecord = {
  readonly steps: readonly StepRecord[];
  /** Temperatures read while no step ran, such as the developer before the first pour. */
  readonly readingsBetween: readonly { readonly atMs: number; readonly celsius: number }[];
  readonly ending: 'finished' | 'aborted' | null;
  /** Sum of the shifts of the clock, ms. */
  readonly shiftMs: number;
  /** The latest moment any event speaks of, corrected; null before the first. */
  readonly latestMs: number | null;
  /** Whether an event lies before the one recorded earlier, although no shift was recorded. */
  readonly wentBack: boolean;
};

/** The events that stand, each correction in the place of what it corrects, nothing that was taken back. */
function standingEvents(events: readonly RunEvent[]): readonly RunEvent[] {
  const standing: RunEvent[] = [];
  for (const event of events.toSorted((a, b) => a.id - b.id)) {
    if (event.corrects === null) {
      if (event.kind !== 'taken_back') standing.push(event);
      continue;
    }
    const place = standing.findIndex((earlier) => earlier.id === event.corrects);
    if (place === -1) continue;
    if (event.kind === 'taken_back') standing.splice(place, 1);
    else standing[place] = event;
  }
  return standing;
}

/** Adds the events of a run up to its record. The same events give the same record, whenever it is asked. */
export function recordRun(plan: readonly PlannedStep[], events: readonly RunEvent[]): RunRecord {
  const steps: StepRecord[] = [];
  const readingsBetween: { atMs: number; celsius: number }[] = [];
  let ending: RunRecord['ending'] = null;
  let shiftMs = 0;
  let latestMs: number | null = null;
  let wentBack = false;

  const change = (update: (current: StepRecord) => StepRecord) => {
    const current = steps.at(-1);
    if (current !== undefined && current.endedMs === null) steps[steps.length - 1] = update(current);
  };

  for (const event of standingEvents(events)) {
    if (ending !== null) break;
    if (event.kind === 'clock_shifted') {
      shiftMs += event.seconds * 1000;
      continue;
    }
    const saidMs = event.atMs - shiftMs;
    // Nothing in a run happens before what happened before it.
    const atMs: number = Math.max(saidMs, latestMs ?? saidMs);
    wentBack ||= saidMs < atMs;
    latestMs = atMs;
    switch (event.kind) {
      case 'step_started': {
        const plannedSeconds = plan[event.step]?.seconds;
        if (plannedSeconds === undefined) break;
        change((current) => ({ ...current, endedMs: atMs }));
        steps.push({
          step: event.step,
          startedMs: atMs,
          endedMs: null,
          plannedSeconds,
          addedSeconds: 0,
          readings: [],
        });
        break;
      }
      case 'step_ended':
        change((current) => ({ ...current, endedMs: atMs }));
        break;
      case 'time_added':
        change((current) => ({ ...current, addedSeconds: current.addedSeconds + event.seconds }));
        break;
      case 'temperature_read': {
        const { celsius } = event;
        const current = steps.at(-1);
        if (current === undefined || current.endedMs !== null) readingsBetween.push({ atMs, celsius });
        change((running) => ({
          ...running,
          readings: [...running.readings, { atSeconds: (atMs - running.startedMs) / 1000, celsius }],
        }));
        break;
      }
      case 'run_finished':
      case 'run_aborted':
        change((current) => ({ ...current, endedMs: atMs }));
        ending = event.kind === 'run_finished' ? 'finished' : 'aborted';
        break;
      case 'taken_back':
        break;
    }
  }
  return { steps, readingsBetween, ending, shiftMs, latestMs, wentBack };
}
