import { useState } from 'react';
import type { DevelopmentDetails, RunEventValue } from '../../shared/api/methods/development-methods.ts';
import { isAppError } from '../../shared/api/errors.ts';
import { describeError } from '../../shared/text/describe-error.ts';
import { formatTemperature } from '../../shared/text/format.ts';
import { parseTemperature } from '../../shared/units/temperature.ts';
import { useCommand } from '../api/use-command.ts';
import { Button } from '../ui/button.tsx';
import { Dialog } from '../ui/dialog.tsx';
import { TextField } from '../ui/text-field.tsx';

type Reading = Extract<RunEventValue, { kind: 'temperature_read' }>;

function isReading(event: RunEventValue): event is Reading {
  return event.kind === 'temperature_read';
}

/** Every temperature as it was read, with what it was corrected to later; nothing is written over. */
export function LogReadings({ development }: { readonly development: DevelopmentDetails }) {
  const { id, events, state } = development;
  const [correcting, setCorrecting] = useState<Reading | null>(null);
  const readings = events.filter(isReading).filter((event) => event.corrects === null);
  if (readings.length === 0) return null;
  return (
    <section aria-labelledby="log-readings">
      <h2 id="log-readings">Temperatures as they were read</h2>
      <table className="log-steps">
        <thead>
          <tr>
            <th scope="col">At</th>
            <th scope="col">Read</th>
            <th scope="col">Corrected</th>
            <th scope="col">
              <span className="unseen">Change</span>
            </th>
          </tr>
        </thead>
        <tbody className="numbers">
          {readings.map((reading) => (
            <tr key={reading.id}>
              <td>{new Date(reading.atMs).toLocaleTimeString([], { hour12: false })}</td>
              <td>{formatTemperature(reading.celsius)}</td>
              <td>{correctionWords(reading, events)}</td>
              <td>
                {state === 'running' ? null : (
                  <Button
                    look="quiet"
                    onPress={() => setCorrecting(reading)}
                    name={`Correct ${formatTemperature(reading.celsius)}`}
                  >
                    Correct
                  </Button>
                )}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      {correcting === null ? null : (
        <ReadingDialog id={id} reading={correcting} onClose={() => setCorrecting(null)} />
      )}
    </section>
  );
}

function correctionWords(reading: Reading, events: readonly RunEventValue[]): string {
  return events
    .filter((event) => event.corrects === reading.id)
    .map((event) => (isReading(event) ? `to ${formatTemperature(event.celsius)}` : 'taken back'))
    .join(', then ');
}

/** Says what a thermometer really showed; the reading that was noted stays in the log. */
function ReadingDialog({
  id,
  reading,
  onClose,
}: {
  readonly id: number;
  readonly reading: Reading;
  readonly onClose: () => void;
}) {
  const note = useCommand('developments.note', 'here');
  const [text, setText] = useState('');
  const celsius = parseTemperature(text);
  const isDoubted = isAppError(note.error, 'temperature_doubtful');
  const where = { id, atMs: reading.atMs, corrects: reading.id };
  function save(sure: boolean): void {
    if (celsius === null) return;
    void note
      .run({ ...where, event: { kind: 'temperature_read', celsius }, sure })
      .then((ended) => (ended.ok ? onClose() : undefined));
  }
  const words = note.error === null ? null : describeError(note.error);
  return (
    <Dialog
      title={`Correct the reading of ${formatTemperature(reading.celsius)}`}
      onClose={onClose}
      onSubmit={() => save(false)}
      actions={
        <>
          <Button
            look="main"
            submit
            onPress={() => save(false)}
            busy={note.pending}
            unavailable={celsius === null ? 'Enter what it really was' : undefined}
          >
            Correct it
          </Button>
          {isDoubted ? <Button onPress={() => save(true)}>It is meant</Button> : null}
          <Button
            onPress={() =>
              void note
                .run({ ...where, event: { kind: 'taken_back' } })
                .then((ended) => (ended.ok ? onClose() : undefined))
            }
          >
            It was no reading
          </Button>
          <Button onPress={onClose}>Cancel</Button>
        </>
      }
    >
      <TextField
        label="It was, °C"
        value={text}
        onChange={setText}
        inputMode="decimal"
        numbers
        autoFocus
        error={words === null ? undefined : `${words.detail} ${words.advice}`}
      />
      <p>The reading as it was noted stays in the log.</p>
    </Dialog>
  );
}
