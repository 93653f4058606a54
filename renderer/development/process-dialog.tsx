import { useState } from 'react';
import type { ProcessEntry } from '../../shared/api/methods/bath-methods.ts';
import { findDeveloperStep, type Process, type Step } from '../../shared/domain/development/process.ts';
import { setDeveloperTime } from '../../shared/domain/development/set-developer-time.ts';
import { yours, type Source } from '../../shared/domain/development/source.ts';
import type { TimePoint } from '../../shared/domain/development/time-at-temperature.ts';
import { describeError } from '../../shared/text/describe-error.ts';
import { formatDuration, parseDuration } from '../../shared/units/duration.ts';
import { useCommand } from '../api/use-command.ts';
import { Button } from '../ui/button.tsx';
import { Dialog } from '../ui/dialog.tsx';
import { TextField } from '../ui/text-field.tsx';
import { readNumber } from './read-number.ts';

const YOURS = yours('Entered in this process');

/** Rows such as `8:00@30, 2:00@45`; null when one of them is none. */
function readRows(text: string, source: Source): readonly TimePoint[] | null {
  const parts = text.split(',').flatMap((part) => (part.trim() === '' ? [] : [part.trim()]));
  const rows = parts.map((part) => {
    const [time = '', temperature = ''] = part.split('@');
    return { seconds: parseDuration(time), celsius: readNumber(temperature) };
  });
  const read = rows.flatMap(({ seconds, celsius }) =>
    seconds === null || celsius === null ? [] : [{ seconds, celsius, source }],
  );
  return read.length === rows.length ? read : null;
}

function formatRows(points: readonly TimePoint[]): string {
  return points.map((point) => `${formatDuration(point.seconds)}@${point.celsius}`).join(', ');
}

/** The process with the times that were typed; what was left as it was keeps its source. */
function withTimes(process: Process, times: Readonly<Record<string, string>>): Process {
  return {
    ...process,
    steps: process.steps.map((step): Step => {
      const typed = times[step.key];
      if (typed === undefined) return step;
      return { ...step, time: { seconds: parseDuration(typed), source: YOURS } };
    }),
  };
}

/** A copy of a process with the user's own times, or a change of such a copy. */
export function ProcessDialog({
  entry,
  onClose,
}: {
  readonly entry: ProcessEntry;
  readonly onClose: () => void;
}) {
  const { process, kind, id } = entry;
  const developer = findDeveloperStep(process);
  const [name, setName] = useState(id === null ? '' : entry.name);
  const [times, setTimes] = useState<Readonly<Record<string, string>>>({});
  const [aim, setAim] = useState(String(developer?.temperature?.aimC ?? ''));
  const [rows, setRows] = useState(formatRows(developer?.timePoints ?? []));
  const add = useCommand('processes.add', 'here');
  const change = useCommand('processes.change', 'here');
  const points = readRows(rows, YOURS);
  const aimC = readNumber(aim);
  const error = add.error ?? change.error;
  const touchedTable =
    rows !== formatRows(developer?.timePoints ?? []) || aim !== String(developer?.temperature?.aimC ?? '');

  function save(): void {
    const timed = { ...withTimes(process, times), name };
    const seconds = findDeveloperStep(timed)?.time.seconds ?? null;
    const own =
      seconds !== null &&
      aimC !== null &&
      (touchedTable || (developer !== null && times[developer.key] !== undefined))
        ? setDeveloperTime(timed, { seconds, celsius: aimC, source: YOURS }, points ?? [])
        : timed;
    const ended =
      id === null
        ? add.run({ process: own, kind, copiedFrom: entry.key })
        : change.run({ id, process: own, kind });
    void ended.then(({ ok }) => (ok ? onClose() : undefined));
  }

  return (
    <Dialog
      title={id === null ? `Copy ${entry.name}` : `Change ${entry.name}`}
      onClose={onClose}
      onSubmit={save}
      actions={
        <>
          <Button
            look="main"
            submit
            onPress={save}
            busy={add.pending || change.pending}
            unavailable={points === null ? 'Correct the table first' : undefined}
          >
            Save the process
          </Button>
          <Button onPress={onClose}>Cancel</Button>
        </>
      }
    >
      {error === null ? null : <p role="alert">{describeError(error).detail}</p>}
      <TextField label="Name" value={name} onChange={setName} required autoFocus />
      {process.steps.map((step) => {
        const shown =
          times[step.key] ?? (step.time.seconds === null ? '' : formatDuration(step.time.seconds));
        return (
          <TextField
            key={step.key}
            label={step.name}
            value={shown}
            onChange={(text) => setTimes({ ...times, [step.key]: text })}
            numbers
            placeholder="your maker’s time"
            reading={
              times[step.key] === undefined ? `${step.time.source.kind}: ${step.time.source.text}` : undefined
            }
            error={shown.trim() !== '' && parseDuration(shown) === null ? 'a time such as 3:15' : undefined}
          />
        );
      })}
      <TextField label="Developer, °C" value={aim} onChange={setAim} inputMode="decimal" numbers />
      <TextField
        label="Table"
        value={rows}
        onChange={setRows}
        numbers
        placeholder="8:00@30, 2:00@45"
        reading="Developer times at other temperatures, as your maker gives them"
        error={points === null ? 'rows such as 8:00@30, 2:00@45' : undefined}
      />
    </Dialog>
  );
}
