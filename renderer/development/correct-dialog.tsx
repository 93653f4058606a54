import { useState } from 'react';
import type { DevelopmentDetails } from '../../shared/api/methods/development-methods.ts';
import { isAppError } from '../../shared/api/errors.ts';
import { describeError } from '../../shared/text/describe-error.ts';
import { formatDuration, parseDuration } from '../../shared/units/duration.ts';
import { parseTemperature } from '../../shared/units/temperature.ts';
import { useCommand } from '../api/use-command.ts';
import { Button } from '../ui/button.tsx';
import { Dialog } from '../ui/dialog.tsx';
import { TextField } from '../ui/text-field.tsx';

/** Corrects what is known of a development; what stood there before is kept. */
export function CorrectDialog({
  development,
  onClose,
}: {
  readonly development: DevelopmentDetails;
  readonly onClose: () => void;
}) {
  const change = useCommand('developments.change', 'here');
  const { id, developerSeconds, developerTempC } = development;
  const [date, setDate] = useState(development.date?.typed ?? '');
  const [time, setTime] = useState(developerSeconds === null ? '' : formatDuration(developerSeconds));
  const [temperature, setTemperature] = useState(developerTempC === null ? '' : developerTempC.toFixed(1));
  const [who, setWho] = useState(development.who ?? '');
  const [place, setPlace] = useState(development.place ?? '');
  const [note, setNote] = useState(development.note ?? '');
  const orNull = (text: string) => (text.trim() === '' ? null : text.trim());
  const seconds = parseDuration(time);
  const wrongTime = time.trim() !== '' && seconds === null;
  const wrongTemperature = temperature.trim() !== '' && parseTemperature(temperature) === null;
  const wrong = wrongTime || wrongTemperature ? 'Correct what is marked first' : undefined;

  const isDoubted = isAppError(change.error, 'temperature_doubtful');

  function save(sure: boolean): void {
    const shownTime = developerSeconds === null ? '' : formatDuration(developerSeconds);
    const shownTemperature = developerTempC === null ? '' : developerTempC.toFixed(1);
    void change
      .run({
        id,
        change: {
          ...(date.trim() === '' || date === development.date?.typed ? {} : { date }),
          // A time shown in whole seconds is not written back unless it was changed.
          ...(time === shownTime ? {} : { developerSeconds: seconds }),
          ...(temperature === shownTemperature ? {} : { developerTempC: parseTemperature(temperature) }),
          who: orNull(who),
          place: orNull(place),
          note: orNull(note),
        },
        sure,
      })
      .then((ended) => (ended.ok ? onClose() : undefined));
  }
  return (
    <Dialog
      title="Correct the development"
      onClose={onClose}
      onSubmit={() => save(false)}
      actions={
        <>
          <Button look="main" submit onPress={() => save(false)} busy={change.pending} unavailable={wrong}>
            Save
          </Button>
          {isDoubted ? <Button onPress={() => save(true)}>It is meant</Button> : null}
          <Button onPress={onClose}>Cancel</Button>
        </>
      }
    >
      {change.error === null ? null : (
        <p role="alert">
          {describeError(change.error).detail} {describeError(change.error).advice}
        </p>
      )}
      <TextField label="Day" value={date} onChange={setDate} />
      <TextField
        label="Developer"
        value={time}
        onChange={setTime}
        numbers
        error={wrongTime ? 'a time such as 3:15' : undefined}
      />
      <TextField
        label="Mean, °C"
        value={temperature}
        onChange={setTemperature}
        inputMode="decimal"
        numbers
        error={wrongTemperature ? 'a temperature such as 37.8 or 100 °F' : undefined}
      />
      <TextField label="Who" value={who} onChange={setWho} />
      <TextField label="Where" value={place} onChange={setPlace} />
      <TextField label="Note" value={note} onChange={setNote} lines={3} />
      <p>The plan and the log of the run stay as they are; what stood here before is kept.</p>
    </Dialog>
  );
}
