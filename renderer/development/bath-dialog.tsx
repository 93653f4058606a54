import { useState } from 'react';
import { useCommand } from '../api/use-command.ts';
import { useArchive } from '../api/use-query.ts';
import { Button } from '../ui/button.tsx';
import { Dialog } from '../ui/dialog.tsx';
import { TextField } from '../ui/text-field.tsx';
import { BathUses } from './bath-uses.tsx';
import { Cautions } from './cautions.tsx';
import { ClearingTests } from './clearing-tests.tsx';
import { MixBathDialog } from './mix-bath-dialog.tsx';
import { WorkingLines } from './working-lines.tsx';

/** A bath: its ledger, its clearing tests, and its end. */
export function BathDialog({ id, onClose }: { readonly id: number; readonly onClose: () => void }) {
  const { data } = useArchive('baths.get', { id });
  const [correcting, setCorrecting] = useState(false);
  if (!data) return null;
  const { bath, lines, uses } = data;
  if (correcting) return <MixBathDialog bath={bath} onClose={() => setCorrecting(false)} />;
  const inUse = bath.condition === 'in use';
  return (
    <Dialog
      title={bath.name}
      onClose={onClose}
      actions={
        <>
          <Button look="main" onPress={onClose}>
            Close
          </Button>
          <Button onPress={() => setCorrecting(true)}>Correct what is known</Button>
        </>
      }
    >
      <p className="numbers">{bath.words}</p>
      {bath.endedReason === null ? null : <p>{bath.endedReason}</p>}
      {bath.note === null ? null : <p>{bath.note}</p>}
      <WorkingLines lines={lines} />
      <BathUses id={id} uses={uses} inUse={inUse} />
      {bath.kind === 'fixer' ? <ClearingTests id={id} {...data} /> : null}
      {inUse ? <Ending id={id} holdsSilver={bath.kind === 'fixer' || bath.kind === 'bleach_fix'} /> : null}
    </Dialog>
  );
}

function instantOf(day: string): string | null {
  const date = new Date(`${day.trim()}T12:00:00`);
  return Number.isNaN(date.getTime()) ? null : date.toISOString();
}

/** The end of a bath: poured away, or spoilt from a moment on. */
function Ending({ id, holdsSilver }: { readonly id: number; readonly holdsSilver: boolean }) {
  const discard = useCommand('baths.discard');
  const spoil = useCommand('baths.spoil');
  const [reason, setReason] = useState('');
  const [since, setSince] = useState('');
  const why = reason.trim() === '' ? null : reason.trim();
  const at = since.trim() === '' ? null : instantOf(since);
  const wrongDay = since.trim() !== '' && at === null ? 'Correct the day first' : undefined;
  return (
    <section className="clearing" aria-labelledby="ending">
      <h3 id="ending">Its end</h3>
      {holdsSilver ? <Cautions keys={['silver_waste']} /> : null}
      <TextField label="Reason" value={reason} onChange={setReason} />
      <TextField
        label="Since"
        value={since}
        onChange={setSince}
        placeholder="now, or 2026-04-20"
        error={wrongDay === undefined ? undefined : 'a day such as 2026-04-20'}
      />
      <div className="development-row">
        <Button onPress={() => void discard.run({ id, at, reason: why })} unavailable={wrongDay}>
          It was poured away
        </Button>
        <Button onPress={() => void spoil.run({ id, at, reason: why })} unavailable={wrongDay}>
          It is spoilt
        </Button>
      </div>
    </section>
  );
}
