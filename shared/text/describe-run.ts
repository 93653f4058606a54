import type { RunCue, RunState } from '../domain/development/run-sheet.ts';
import type { WorkingLine } from '../domain/development/working.ts';
import { formatDuration } from '../units/duration.ts';

type TankCue = NonNullable<RunState['running']>['cue'];

function turnOver(turns: number | null): string {
  return turns === null ? 'Keep it moving' : `Turn over ${turns} times`;
}

/** What to do with the tank now, and what follows. */
export function describeTankCue(
  cue: TankCue,
  next: string | null,
): { readonly action: string; readonly follows: string } {
  const following = next === null ? 'then the film is done' : `next: ${next}`;
  switch (cue.action) {
    case 'agitate':
      return { action: turnOver(cue.turns), follows: 'then let it stand' };
    case 'stand':
      return {
        action: 'Let it stand',
        follows:
          cue.nextAtSeconds === null
            ? 'next: pour out'
            : `next: ${turnOver(cue.nextTurns).toLowerCase()}, at ${formatDuration(cue.nextAtSeconds)}`,
      };
    case 'pour_out':
      return { action: 'Pour out', follows: following };
    case 'next_bath':
      return { action: 'Time is up', follows: following };
  }
}

/** What is said aloud when a cue falls due. `next`: name of the step that follows, null after the last. */
export function sayCue(cue: RunCue, next: string | null): string {
  switch (cue.kind) {
    case 'agitate':
      return 'Turn over';
    case 'stand':
      return 'Let it stand';
    case 'pour_out':
      return 'Pour out in ten seconds';
    case 'time_up':
      return next === null ? 'Time is up. That was the last bath' : `Time is up. Next, ${next}`;
  }
}

/** A sum in one line: what each step of it comes to. Rounding, shown as whole seconds anyway, is left out. */
export function sumInOneLine(lines: readonly WorkingLine[]): string {
  const times = lines.filter((line) => line.unit === 's');
  return times
    .filter(
      (line, at) => at === 0 || formatDuration(line.value) !== formatDuration(times[at - 1]?.value ?? 0),
    )
    .map(({ label, value }, at) => {
      const words = at === 0 ? label : `${label.charAt(0).toLowerCase()}${label.slice(1)}`;
      return `${words} ${formatDuration(value)}`;
    })
    .join(', ');
}
