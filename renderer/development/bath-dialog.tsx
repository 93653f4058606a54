import { useState } from 'react';
import { findCautions } from '../../shared/domain/development/cautions.ts';
import { ROLL_AREA_CM2 } from '../../shared/domain/film/film-area.ts';
import { parseDuration, formatDuration } from '../../shared/units/duration.ts';
import { useCommand } from '../api/use-command.ts';
import { useArchive } from '../api/use-query.ts';
import { Button } from '../ui/button.tsx';
import { CheckBox } from '../ui/check-box.tsx';
import { Dialog } from '../ui/dialog.tsx';
import { TextField } from '../ui/text-field.tsx';
import { WorkingLines } from './working-lines.tsx';

/** A bath: its ledger, its clearing tests, and its end. */
export function BathDialog({ id, onClose }: { readonly id: number; readonly onClose: () => void }) {
  const { data } = useArchive('baths.get', { id });
  const discard = useCommand('baths.discard');
  const spoil = useCommand('baths.spoil');
  const [reason, setReason] = useState('');
  const [since, setSince] = useState('');
  if (!data) return null;
  const { bath, lines, uses, clearing, rollsSinceGood } = data;
  const why = reason.trim() === '' ? null : reason.trim();
  const at = since.trim() === '' ? null : instantOf(since);
  const wrongDay = since.trim() !== '' && at === null;
  return (
    <Dialog title={bath.name} onClose={onClose} actions={<Button onPress={onClose}>Close</Button>}>
      <p className="numbers">{bath.words}</p>
      <WorkingLines lines={lines} />
      {uses.length === 0 ? null : (
        <table className="bath-ledger">
          <caption>What went through</caption>
          <thead>
            <tr>
              <th scope="col">When</th>
              <th scope="col">Rolls of 80 sq in</th>
              <th scope="col">What</th>
            </tr>
          </thead>
          <tbody>
            {uses.map((use) => (
              <tr key={use.id}>
                <td>{use.usedAt.slice(0, 10)}</td>
                <td>{(use.weightedAreaCm2 / ROLL_AREA_CM2).toFixed(2)}</td>
                <td>
                  {use.developmentId === null ? (use.note ?? '') : `development ${use.developmentId}`}
                  {use.afterEnd ? ', after it had ended' : ''}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {bath.kind === 'fixer' ? <ClearingTest id={id} /> : null}
      {clearing.map((each) => (
        <p key={each.stock?.id ?? 0}>
          Clearing {each.stock?.name ?? 'film'}: {formatDuration(each.seconds)} against{' '}
          {formatDuration(each.freshSeconds)} fresh,{' '}
          {each.spent ? 'spent' : `good; fix for at least ${formatDuration(each.fixSeconds)}`}.
        </p>
      ))}
      {clearing.some((each) => each.spent) && rollsSinceGood.length > 0 ? (
        <p role="alert">
          Fixed since the last good test: {rollsSinceGood.map((roll) => roll.number).join(', ')}.
        </p>
      ) : null}
      {bath.condition === 'in use' ? (
        <>
          <TextField label="Reason" value={reason} onChange={setReason} />
          <TextField
            label="Since"
            value={since}
            onChange={setSince}
            placeholder="now, or 2026-04-20"
            error={wrongDay ? 'a day such as 2026-04-20' : undefined}
          />
          <div className="development-row">
            <Button
              onPress={() => void discard.run({ id, at, reason: why })}
              unavailable={wrongDay ? 'Correct the day first' : undefined}
            >
              It was poured away
            </Button>
            <Button
              onPress={() => void spoil.run({ id, at, reason: why })}
              unavailable={wrongDay ? 'Correct the day first' : undefined}
            >
              It is spoilt
            </Button>
          </div>
          {bath.kind === 'fixer' || bath.kind === 'bleach_fix'
            ? findCautions(['silver_waste']).map((caution) => <p key={caution.key}>{caution.text}</p>)
            : null}
        </>
      ) : null}
    </Dialog>
  );
}

function instantOf(day: string): string | null {
  const date = new Date(`${day.trim()}T12:00:00`);
  return Number.isNaN(date.getTime()) ? null : date.toISOString();
}

function ClearingTest({ id }: { readonly id: number }) {
  const test = useCommand('baths.test');
  const [time, setTime] = useState('');
  const [fresh, setFresh] = useState(false);
  const seconds = parseDuration(time);
  return (
    <div className="development-row">
      <TextField
        label="A scrap of film cleared in"
        value={time}
        onChange={setTime}
        placeholder="0:45"
        numbers
      />
      <CheckBox checked={fresh} onChange={setFresh}>
        The fixer is fresh
      </CheckBox>
      <Button
        onPress={() => void (seconds === null ? undefined : test.run({ id, seconds, fresh }))}
        unavailable={seconds === null ? 'Enter a time such as 0:45' : undefined}
      >
        Note the test
      </Button>
    </div>
  );
}
