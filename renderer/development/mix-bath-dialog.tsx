import { useState } from 'react';
import type { BathEntry } from '../../shared/api/methods/bath-methods.ts';
import { bathKind } from '../../shared/api/process-values.ts';
import { processKind } from '../../shared/api/values.ts';
import { mixingCautions } from '../../shared/domain/development/cautions.ts';
import { BATH_NAMES } from '../../shared/text/describe-development.ts';
import { describeError } from '../../shared/text/describe-error.ts';
import { PROCESS_NAMES } from '../../shared/text/format.ts';
import { useCommand } from '../api/use-command.ts';
import { useArchive } from '../api/use-query.ts';
import { Button } from '../ui/button.tsx';
import { CheckBox } from '../ui/check-box.tsx';
import { Dialog } from '../ui/dialog.tsx';
import { Select } from '../ui/select.tsx';
import { TextField } from '../ui/text-field.tsx';
import { bathOfForm, findFormErrors, formOfBath, shownOffer, type BathForm } from './bath-form.ts';
import { Cautions } from './cautions.tsx';
import { readNumber } from './read-number.ts';
import { today } from './today.ts';

const KINDS = bathKind.options.filter((kind) => kind !== 'water');

const EMPTY = {
  name: '',
  kind: 'developer',
  process: 'c41',
  volume: '1000',
  dilution: '',
  rolls: null,
  shelf: null,
  extension: null,
  before: '',
  oneShot: false,
  note: '',
} as const;

/**
 * The slip for a bath that was mixed, or for what is known of one that is there (`bath`). Capacity, shelf life and
 * added time are offered with their source.
 */
export function MixBathDialog({
  bath = null,
  onClose,
}: {
  readonly bath?: BathEntry | null;
  readonly onClose: () => void;
}) {
  const [form, setForm] = useState<BathForm>(() =>
    bath === null ? { ...EMPTY, mixed: today() } : formOfBath(bath),
  );
  const change = (changes: Partial<BathForm>) => setForm({ ...form, ...changes });
  const add = useCommand('baths.add', 'here');
  const correct = useCommand('baths.change', 'here');
  const { data: processes = [] } = useArchive('processes.list', {});
  const volumeMl = readNumber(form.volume);
  const { data: offer } = useArchive(
    'baths.offer',
    { kind: form.kind, process: form.process, volumeMl: volumeMl !== null && volumeMl > 0 ? volumeMl : null },
    { keepFormer: true },
  );
  const shown = shownOffer(form, offer);
  const errors = findFormErrors(form, offer);
  const error = add.error ?? correct.error;
  const wrong =
    form.name.trim() === ''
      ? 'It needs a name'
      : Object.keys(errors).length > 0
        ? 'Correct what is marked first'
        : undefined;

  function save(): void {
    if (wrong !== undefined) return;
    const given = bathOfForm(form, offer, bath);
    const ended = bath === null ? add.run(given) : correct.run({ id: bath.id, change: given });
    void ended.then(({ ok }) => (ok ? onClose() : undefined));
  }

  return (
    <Dialog
      title={bath === null ? 'Mix a bath' : `Correct ${bath.name}`}
      onClose={onClose}
      onSubmit={save}
      actions={
        <>
          <Button look="main" submit onPress={save} busy={add.pending || correct.pending} unavailable={wrong}>
            {bath === null ? 'Mix it' : 'Save'}
          </Button>
          <Button onPress={onClose}>Cancel</Button>
        </>
      }
    >
      {error === null ? null : (
        <p role="alert">
          {describeError(error).detail} {describeError(error).advice}
        </p>
      )}
      {bath === null ? <Cautions keys={mixingCautions(form.kind)} /> : null}
      <TextField label="Name" value={form.name} onChange={(name) => change({ name })} required autoFocus />
      <Select
        label="Bath"
        value={form.kind}
        onChange={(kind) => change({ kind })}
        options={KINDS.map((value) => ({ value, label: BATH_NAMES[value] }))}
      />
      <Select
        label="Process"
        value={form.process}
        onChange={(process) => change({ process })}
        options={[
          ...processKind.options.map((value) => ({ value: value as string, label: PROCESS_NAMES[value] })),
          ...processes
            .map(({ key, name }) => ({ value: key, label: name }))
            .filter(({ value }) => !processKind.safeParse(value).success),
        ]}
      />
      <TextField label="Mixed on" value={form.mixed} onChange={(mixed) => change({ mixed })} />
      <TextField
        label="Volume, ml"
        value={form.volume}
        onChange={(volume) => change({ volume })}
        inputMode="decimal"
        numbers
        error={errors.volume}
      />
      <TextField
        label="Dilution"
        value={form.dilution}
        onChange={(dilution) => change({ dilution })}
        placeholder="1+9, or nothing"
        error={errors.dilution}
      />
      <TextField
        label="Rolls it does"
        value={shown.rolls}
        onChange={(rolls) => change({ rolls })}
        inputMode="decimal"
        numbers
        error={errors.rolls}
        reading={form.rolls === null ? sourceWords(offer?.capacityCm2?.source) : 'of 80 sq in'}
      />
      <TextField
        label="Keeps, days"
        value={shown.shelf}
        onChange={(shelf) => change({ shelf })}
        inputMode="numeric"
        numbers
        error={errors.shelf}
        reading={form.shelf === null ? sourceWords(offer?.shelfDays?.source) : undefined}
      />
      <TextField
        label="Added time"
        value={shown.extension}
        onChange={(extension) => change({ extension })}
        numbers
        placeholder="2%, or 1=3:15, 5=3:30"
        error={errors.extension}
        reading={
          form.extension === null
            ? sourceWords(offer?.extension?.source)
            : 'for every roll before, or a table from a roll on'
        }
      />
      <TextField
        label="Rolls before"
        value={form.before}
        onChange={(before) => change({ before })}
        inputMode="decimal"
        numbers
        error={errors.before}
        reading="done before this ledger was begun"
      />
      <TextField label="Note" value={form.note} onChange={(note) => change({ note })} />
      <CheckBox checked={form.oneShot} onChange={(oneShot) => change({ oneShot })}>
        For one use
      </CheckBox>
    </Dialog>
  );
}

function sourceWords(source: { kind: string; text: string } | undefined): string | undefined {
  if (source === undefined) return undefined;
  return source.kind === 'yours'
    ? `Of your process: ${source.text}.`
    : `Offered, ${source.kind}: ${source.text}. Your maker’s number is better.`;
}
