import { useState } from 'react';
import { isAppError } from '../../shared/api/errors.ts';
import type { Frame } from '../../shared/api/methods/film-methods.ts';
import { parsePartialDate } from '../../shared/domain/date/partial-date.ts';
import { describeDate } from '../../shared/text/calendar-words.ts';
import { describeError } from '../../shared/text/describe-error.ts';
import { describeReason } from '../../shared/text/describe-reason.ts';
import { useCommand } from '../api/use-command.ts';
import { useArchive } from '../api/use-query.ts';
import { Button } from '../ui/button.tsx';
import { Select } from '../ui/select.tsx';
import { TextField } from '../ui/text-field.tsx';
import type { Done } from './done-line.tsx';
import { asSentence, type FrameEdits } from './frame-edits.ts';
import { whichWords } from './roll-words.ts';

export interface OutingFieldProps {
  readonly frames: readonly Frame[];
  readonly edits: FrameEdits;
  readonly onEdits: (edits: FrameEdits) => void;
  readonly onDone: (done: Done) => void;
}

/** The outing that the frames belong to: one that is written down, or one that is begun with them. */
export function OutingField({ frames, edits, onEdits, onDone }: OutingFieldProps) {
  const outings = useArchive('outings.list', {}).data ?? [];
  const [beginning, setBeginning] = useState(false);
  const present = new Set(frames.map(({ outing }) => outing?.id ?? null));
  const [only] = present;
  const common = present.size === 1 ? String(only ?? 'none') : '';
  const value = edits.outingId === undefined ? common : String(edits.outingId ?? 'none');
  const known = frames
    .flatMap(({ outing }) => outing ?? [])
    .filter(({ id }) => !outings.some((other) => other.id === id));
  const options = [
    ...(value === '' ? [{ value: '', label: 'different ones' }] : []),
    { value: 'none', label: 'none' },
    ...[...new Map(known.map(({ id, name }) => [id, name]))].map(([id, name]) => ({
      value: String(id),
      label: name,
    })),
    ...outings.map(({ id, title }) => ({ value: String(id), label: title })),
    { value: 'new', label: 'a new outing…' },
  ];
  function choose(next: string): void {
    setBeginning(next === 'new');
    if (next === '') return;
    if (next === 'new') {
      const { outingId: _chosen, ...others } = edits;
      return onEdits(others);
    }
    onEdits({ ...edits, outingId: next === 'none' ? null : Number(next) });
  }
  return (
    <>
      <Select label="Outing" value={beginning ? 'new' : value} options={options} onChange={choose} />
      {beginning ? (
        <NewOuting
          frames={frames}
          onLeave={() => setBeginning(false)}
          onBegun={(done) => {
            setBeginning(false);
            onDone(done);
          }}
        />
      ) : null}
    </>
  );
}

interface NewOutingProps {
  readonly frames: readonly Frame[];
  readonly onLeave: () => void;
  readonly onBegun: (done: Done) => void;
}

/** A new outing of which the frames are. */
function NewOuting({ frames, onLeave, onBegun }: NewOutingProps) {
  const add = useCommand('outings.add', 'here');
  const [title, setTitle] = useState('');
  const [date, setDate] = useState('');
  const [place, setPlace] = useState('');
  const read = date.trim() === '' ? null : parsePartialDate(date);
  const refused = isAppError(add.error, 'value_not_valid') ? asSentence(add.error.details.reason) : undefined;

  async function begin(): Promise<void> {
    const [first] = frames;
    if (!first || title.trim() === '' || read?.ok === false || add.pending) return;
    const ended = await add.run({
      title: title.trim(),
      date: date.trim() === '' ? null : date.trim(),
      place: place.trim() === '' ? null : place.trim(),
      rolls: [{ rollId: first.rollId, labels: frames.map(({ label }) => label) }],
    });
    if (ended.ok) onBegun({ says: `Began the outing ${title.trim()} with ${whichWords(frames)}.`, steps: 1 });
  }
  return (
    <div className="new-outing" role="group" aria-label="The new outing">
      <TextField label="Title" autoFocus value={title} onChange={setTitle} />
      <TextField
        label="When"
        numbers
        value={date}
        onChange={setDate}
        error={read?.ok === false ? asSentence(describeReason(read.reason)) : refused}
        reading={
          read?.ok ? (
            <>read as {describeDate({ edtf: read.value.edtf, typed: read.value.edtf })}</>
          ) : undefined
        }
      />
      <TextField label="Where" value={place} onChange={setPlace} />
      {add.error !== null && refused === undefined ? (
        <p role="alert">{describeError(add.error).detail}</p>
      ) : null}
      <div className="frame-slip-actions">
        <Button
          busy={add.pending}
          onPress={() => void begin()}
          {...(title.trim() === '' ? { unavailable: '' } : {})}
        >
          Begin the outing
        </Button>
        <Button look="quiet" onPress={onLeave}>
          Leave
        </Button>
      </div>
    </div>
  );
}
