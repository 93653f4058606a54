import { useState } from 'react';
import type { Given } from '../../shared/api/contract.ts';
import { bathKind, type BathKindValue } from '../../shared/api/process-values.ts';
import { processKind, type ProcessKind } from '../../shared/api/values.ts';
import { yours } from '../../shared/domain/development/source.ts';
import { ROLL_AREA_CM2 } from '../../shared/domain/film/film-area.ts';
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
import { readNumber } from './read-number.ts';
import { today } from './today.ts';

const KINDS = bathKind.options.filter((kind) => kind !== 'water');

/** The slip for a bath that was mixed. Capacity, shelf life and added time are offered with their source. */
export function MixBathDialog({ onClose }: { readonly onClose: () => void }) {
  const [name, setName] = useState('');
  const [kind, setKind] = useState<BathKindValue>('developer');
  const [process, setProcess] = useState<ProcessKind>('c41');
  const [mixed, setMixed] = useState(today());
  const [volume, setVolume] = useState('1000');
  const [dilution, setDilution] = useState('');
  const [rolls, setRolls] = useState<string | null>(null);
  const [shelf, setShelf] = useState<string | null>(null);
  const [percent, setPercent] = useState<string | null>(null);
  const [oneShot, setOneShot] = useState(false);
  const add = useCommand('baths.add', 'here');
  const volumeMl = readNumber(volume);
  const { data: offered } = useArchive(
    'baths.offer',
    { kind, process, volumeMl: volumeMl !== null && volumeMl > 0 ? volumeMl : null },
    { keepFormer: true },
  );
  const rule = offered?.extension?.kind === 'percent' ? offered.extension : null;
  const capacity = offered?.capacityCm2 ?? null;
  const shownRolls =
    rolls ?? (capacity === null ? '' : String(Math.round((capacity.value / ROLL_AREA_CM2) * 10) / 10));
  const shownShelf = shelf ?? String(offered?.shelfDays?.value ?? '');
  const shownPercent = percent ?? (rule === null ? '' : String(rule.percentPerRoll));

  function save(): void {
    const capacityRolls = readNumber(shownRolls);
    const days = readNumber(shownShelf);
    const perRoll = readNumber(shownPercent);
    const bath: Given<'baths.add'> = {
      name,
      kind,
      process,
      mixed,
      volumeMl,
      dilution: dilution.trim() === '' ? null : dilution,
      capacityCm2: capacityRolls === null ? null : capacityRolls * ROLL_AREA_CM2,
      shelfDays: days,
      oneShot,
      extension:
        perRoll === null
          ? null
          : percent === null && rule !== null
            ? rule
            : { kind: 'percent', percentPerRoll: perRoll, source: yours('Entered when the bath was mixed') },
    };
    void add.run(bath).then((ended) => (ended.ok ? onClose() : undefined));
  }

  return (
    <Dialog
      title="Mix a bath"
      onClose={onClose}
      onSubmit={save}
      actions={
        <>
          <Button look="main" submit onPress={save} busy={add.pending}>
            Mix it
          </Button>
          <Button onPress={onClose}>Cancel</Button>
        </>
      }
    >
      <TextField
        label="Name"
        value={name}
        onChange={setName}
        required
        autoFocus
        error={add.error === null ? undefined : describeError(add.error).detail}
      />
      <Select
        label="Bath"
        value={kind}
        onChange={setKind}
        options={KINDS.map((value) => ({ value, label: BATH_NAMES[value] }))}
      />
      <Select
        label="Process"
        value={process}
        onChange={setProcess}
        options={processKind.options.map((value) => ({ value, label: PROCESS_NAMES[value] }))}
      />
      <TextField label="Mixed on" value={mixed} onChange={setMixed} />
      <TextField label="Volume, ml" value={volume} onChange={setVolume} inputMode="decimal" numbers />
      <TextField label="Dilution" value={dilution} onChange={setDilution} placeholder="1+9, or nothing" />
      <TextField
        label="Rolls it does"
        value={shownRolls}
        onChange={setRolls}
        inputMode="decimal"
        numbers
        reading={rolls === null ? sourceWords(capacity?.source) : undefined}
      />
      <TextField
        label="Keeps, days"
        value={shownShelf}
        onChange={setShelf}
        inputMode="numeric"
        numbers
        reading={shelf === null ? sourceWords(offered?.shelfDays?.source) : undefined}
      />
      <TextField
        label="% per roll"
        value={shownPercent}
        onChange={setPercent}
        inputMode="decimal"
        numbers
        reading={percent === null ? sourceWords(rule?.source) : 'added to the time for every roll before'}
      />
      <CheckBox checked={oneShot} onChange={setOneShot}>
        For one use
      </CheckBox>
    </Dialog>
  );
}

function sourceWords(source: { kind: string; text: string } | undefined): string | undefined {
  return source === undefined
    ? undefined
    : `Offered, ${source.kind}: ${source.text}. Your maker’s number is better.`;
}
