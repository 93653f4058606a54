import { useState } from 'react';
import { isAppError } from '../../shared/api/errors.ts';
import type { Roll } from '../../shared/api/methods/film-methods.ts';
import { rollState, type RollState } from '../../shared/api/values.ts';
import { parsePartialDate } from '../../shared/domain/date/partial-date.ts';
import { describeDate } from '../../shared/text/calendar-words.ts';
import { describeError } from '../../shared/text/describe-error.ts';
import { describeReason } from '../../shared/text/describe-reason.ts';
import { useCommand } from '../api/use-command.ts';
import { Button } from '../ui/button.tsx';
import { Select } from '../ui/select.tsx';
import { TextField } from '../ui/text-field.tsx';
import type { Done } from './done-line.tsx';
import { asSentence } from './frame-edits.ts';

export interface StateFormProps {
  readonly roll: Roll;
  readonly onDone: (done: Done) => void;
  readonly onLeave: () => void;
}

/** Moves the roll to a state, with the day it got there, vague or not. */
export function StateForm({ roll, onDone, onLeave }: StateFormProps) {
  const states = rollState.options;
  const following = states[states.indexOf(roll.state) + 1] ?? roll.state;
  const [state, setState] = useState<RollState>(following);
  const [since, setSince] = useState('');
  const set = useCommand('rolls.setState', 'here');
  const typed = since.trim();
  const date = typed === '' ? null : parsePartialDate(typed);
  const refused = isAppError(set.error, 'value_not_valid') ? asSentence(set.error.details.reason) : undefined;
  const problem = date?.ok === false ? asSentence(describeReason(date.reason)) : refused;

  async function save(): Promise<void> {
    if (set.pending || date?.ok === false) return;
    const ended = await set.run({ id: roll.id, state, since: typed === '' ? null : typed });
    if (ended.ok) onDone({ says: `Roll ${roll.number} is ${state}.`, steps: 1 });
  }
  return (
    <form
      className="card-form"
      aria-label="State of the roll"
      onSubmit={(event) => {
        event.preventDefault();
        void save();
      }}
    >
      <Select
        label="State"
        value={state}
        options={states.map((value) => ({ value, label: value }))}
        onChange={setState}
      />
      <TextField
        label="Since"
        numbers
        autoFocus
        value={since}
        onChange={(text) => {
          setSince(text);
          set.clear();
        }}
        placeholder="a day, or about when"
        error={problem}
        reading={
          date?.ok ? (
            <>read as {describeDate({ edtf: date.value.edtf, typed: date.value.edtf })}</>
          ) : undefined
        }
      />
      {set.error !== null && refused === undefined ? (
        <p role="alert" className="card-form-failure">
          {describeError(set.error).title}: {describeError(set.error).detail}
        </p>
      ) : null}
      <div className="card-form-actions">
        <Button look="main" submit busy={set.pending} onPress={() => void save()}>
          Set the state
        </Button>
        <Button look="quiet" onPress={onLeave}>
          Leave
        </Button>
      </div>
    </form>
  );
}
