import { useState, type KeyboardEvent } from 'react';
import { isAppError } from '../../shared/api/errors.ts';
import type { Given } from '../../shared/api/contract.ts';
import type { Roll } from '../../shared/api/methods/film-methods.ts';
import { FILM_FORMATS } from '../../shared/domain/film/film-format.ts';
import { frameFormatsOn } from '../../shared/domain/film/frame-format.ts';
import { describeError } from '../../shared/text/describe-error.ts';
import { useCommand } from '../api/use-command.ts';
import { useArchive } from '../api/use-query.ts';
import { Button } from '../ui/button.tsx';
import { Select } from '../ui/select.tsx';
import { TextField } from '../ui/text-field.tsx';
import type { Done } from './done-line.tsx';
import { asSentence } from './frame-edits.ts';
import { changeOfRoll, formOfRoll, type RollFacts } from './roll-facts.ts';

export interface RollFactsFormProps {
  readonly roll: Roll;
  readonly onDone: (done: Done) => void;
  readonly onLeave: () => void;
  readonly onRemove: () => void;
}

const POLARITIES = [
  { value: 'auto', label: 'found out by the program' },
  { value: 'negative', label: 'negatives' },
  { value: 'positive', label: 'positives' },
] as const;

/** The facts of a roll, where they stand on its card, to be changed. */
export function RollFactsForm({ roll, onDone, onLeave, onRemove }: RollFactsFormProps) {
  const [facts, setFacts] = useState<RollFacts>(() => formOfRoll(roll));
  const stocks = useArchive('stocks.list', {}).data ?? [];
  const cameras = useArchive('cameras.list', {}).data ?? [];
  const command = useCommand('rolls.change', 'here');
  const { change, problems } = changeOfRoll(roll, facts);
  const refused = isAppError(command.error, 'value_not_valid') ? command.error.details : null;
  const set = (part: Partial<RollFacts>) => {
    command.clear();
    setFacts((before) => ({ ...before, ...part }));
  };
  const nothing = Object.keys(change).length === 0;

  async function save(): Promise<void> {
    if (command.pending || Object.keys(problems).length > 0) return;
    if (nothing) return onLeave();
    const ended = await command.run({ id: roll.id, change });
    if (ended.ok) onDone({ says: savedWords(roll, change), steps: 1 });
  }
  function press(event: KeyboardEvent): void {
    if (event.key !== 'Escape' || event.defaultPrevented) return;
    event.preventDefault();
    onLeave();
  }
  const taken = isAppError(command.error, 'roll_number_taken')
    ? describeError(command.error).detail
    : undefined;
  const failure =
    command.error !== null && refused === null && taken === undefined ? describeError(command.error) : null;
  const refusedAt = (field: string) => (refused?.field === field ? asSentence(refused.reason) : undefined);

  return (
    // Escape leaves the form; its fields carry the focus.
    // oxlint-disable-next-line jsx-a11y/no-noninteractive-element-interactions
    <form
      className="card-form"
      aria-label="Facts of the roll"
      onKeyDown={press}
      onSubmit={(event) => {
        event.preventDefault();
        void save();
      }}
    >
      <TextField
        label="Title"
        autoFocus
        value={facts.title}
        onChange={(title) => set({ title })}
        placeholder="none"
      />
      <TextField
        label="Number"
        numbers
        value={facts.number}
        onChange={(number) => set({ number })}
        error={problems.number ?? taken ?? refusedAt('roll number')}
      />
      <Select
        label="Stock"
        value={facts.stock}
        options={[
          { value: '', label: 'not known' },
          ...stocks.map(({ id, name }) => ({ value: String(id), label: name })),
        ]}
        onChange={(stock) => set({ stock })}
      />
      <Select
        label="Film"
        value={facts.filmFormat}
        options={FILM_FORMATS.map(({ id, name }) => ({ value: id, label: name }))}
        onChange={(filmFormat) => set({ filmFormat })}
      />
      <Select
        label="Frames"
        value={facts.frameFormat}
        options={frameFormatsOn(facts.filmFormat).map(({ id, name }) => ({ value: id, label: name }))}
        onChange={(frameFormat) => set({ frameFormat })}
      />
      {refusedAt('frame format') === undefined ? null : <p role="alert">{refusedAt('frame format')}</p>}
      <TextField
        label="Exposures"
        numbers
        value={facts.exposures}
        onChange={(exposures) => set({ exposures })}
        error={problems.exposures}
        placeholder="not known"
      />
      <TextField
        label="EI"
        numbers
        value={facts.exposureIndex}
        onChange={(exposureIndex) => set({ exposureIndex })}
        error={problems.exposureIndex}
        placeholder="as the stock"
      />
      <TextField
        label="Push"
        numbers
        value={facts.pushStops}
        onChange={(pushStops) => set({ pushStops })}
        error={problems.pushStops}
        placeholder="none; −1 to pull"
      />
      <TextField
        label="Expires"
        numbers
        value={facts.expires}
        onChange={(expires) => set({ expires })}
        error={problems.expires ?? refusedAt('expires')}
        placeholder="not known"
      />
      <Select
        label="Camera"
        value={facts.camera}
        options={[
          { value: '', label: 'none yet' },
          ...cameras.map(({ id, name }) => ({ value: String(id), label: name })),
        ]}
        onChange={(camera) => set({ camera })}
      />
      <Select
        label="Scans are"
        value={facts.scanPolarity}
        options={POLARITIES}
        onChange={(scanPolarity) => set({ scanPolarity })}
      />
      <TextField label="Lab" value={facts.lab} onChange={(lab) => set({ lab })} placeholder="none" />
      <TextField label="Note" lines={3} value={facts.note} onChange={(note) => set({ note })} />
      {failure === null ? null : (
        <div role="alert" className="card-form-failure">
          <p>{failure.title}</p>
          <p>{failure.detail}</p>
        </div>
      )}
      <div className="card-form-actions">
        <Button look="main" submit busy={command.pending} onPress={() => void save()}>
          Write to the card
        </Button>
        <Button look="quiet" keys="Esc" onPress={onLeave}>
          Leave
        </Button>
        <Button look="quiet" onPress={onRemove}>
          Remove the roll…
        </Button>
      </div>
    </form>
  );
}

function savedWords(roll: Roll, change: Given<'rolls.change'>['change']): string {
  return `Changed roll ${change.number ?? roll.number}.`;
}
