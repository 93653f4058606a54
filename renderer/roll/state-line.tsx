import type { Roll } from '../../shared/api/methods/film-methods.ts';
import { rollState, type RollState } from '../../shared/api/values.ts';
import { describeDate } from '../../shared/text/calendar-words.ts';

/** The life of a roll as a line: each state with the day it began, as far as that is known. */
export function StateLine({ roll }: { readonly roll: Roll }) {
  const states = rollState.options;
  const at = states.indexOf(roll.state);
  const dates = shortened(states.map((state) => sinceWords(roll, state)));
  return (
    <ol className="state-line" aria-label="States of the roll">
      {states.map((state, index) => (
        <li
          key={state}
          className={index > at ? 'state-ahead' : undefined}
          aria-current={index === at ? 'step' : undefined}
        >
          <b>{index > at ? '' : dates[index]}</b>
          {state}
        </li>
      ))}
    </ol>
  );
}

function sinceWords(roll: Roll, state: RollState): string {
  const since = roll.stateDates.find((date) => date.state === state)?.since ?? null;
  return since === null ? '' : describeDate(since);
}

/** A year that stands on the date before is not said again: `2024-04-13`, `04-21`. */
function shortened(dates: readonly string[]): readonly string[] {
  let year = '';
  return dates.map((date) => {
    const whole = /^(\d{4}-)(\d{2}(?:-\d{2})?)$/.exec(date);
    if (!whole) return date;
    const again = whole[1] === year;
    year = whole[1] ?? '';
    return again ? (whole[2] ?? date) : date;
  });
}
