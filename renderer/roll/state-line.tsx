import type { Roll } from '../../shared/api/methods/film-methods.ts';
import { rollState } from '../../shared/api/values.ts';
import { describeDate } from '../../shared/text/calendar-words.ts';

/** The life of a roll as a line: each state with the day it began, as far as that is known. */
export function StateLine({ roll }: { readonly roll: Roll }) {
  const states = rollState.options;
  const at = states.indexOf(roll.state);
  return (
    <ol className="state-line" aria-label="States of the roll">
      {states.map((state, index) => {
        const since = roll.stateDates.find((date) => date.state === state)?.since ?? null;
        return (
          <li
            key={state}
            className={index > at ? 'state-ahead' : undefined}
            aria-current={index === at ? 'step' : undefined}
          >
            <b>{since === null || index > at ? '' : describeDate(since)}</b>
            {state}
          </li>
        );
      })}
    </ol>
  );
}
