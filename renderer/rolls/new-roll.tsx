import { useState } from 'react';
import { isAppError } from '../../shared/api/errors.ts';
import { FILM_FORMATS } from '../../shared/domain/film/film-format.ts';
import { expectFrames, frameFormatsOn } from '../../shared/domain/film/frame-format.ts';
import { parsePartialDate } from '../../shared/domain/date/partial-date.ts';
import { describeError } from '../../shared/text/describe-error.ts';
import { describeReason } from '../../shared/text/describe-reason.ts';
import { describeDate } from '../../shared/text/calendar-words.ts';
import { useCommand } from '../api/use-command.ts';
import { useArchive } from '../api/use-query.ts';
import { Button } from '../ui/button.tsx';
import { Dialog } from '../ui/dialog.tsx';
import { Select } from '../ui/select.tsx';
import { TextField } from '../ui/text-field.tsx';
import { NewCameraFields, NewStockFields, readNewStock, type NewStock } from './new-stock.tsx';
import { emptyRollForm, readRollForm, type RollForm } from './roll-form.ts';

export interface NewRollProps {
  readonly onClose: () => void;
  readonly onAdded: (id: number) => void;
}

const NEW = 'new';
const NONE = 'none';

/** A new roll: the next number is offered, the stock and the camera are chosen or written down with it. */
export function NewRoll({ onClose, onAdded }: NewRollProps) {
  const next = useArchive('rolls.nextNumber', {}).data?.number;
  const stocks = useArchive('stocks.list', {}).data ?? [];
  const cameras = useArchive('cameras.list', {}).data ?? [];
  const [form, setForm] = useState<RollForm>(emptyRollForm);
  const [stock, setStock] = useState<NewStock>({ name: '', iso: '', process: 'c41' });
  const [camera, setCamera] = useState('');
  const [asked, setAsked] = useState(false);
  const addStock = useCommand('stocks.add', 'here');
  const addCamera = useCommand('cameras.add', 'here');
  const addRoll = useCommand('rolls.add', 'here');
  const set = (part: Partial<RollForm>) => setForm((before) => ({ ...before, ...part }));
  const read = readRollForm({ ...form, number: form.number ?? next ?? '' });
  const newStock = form.stock === NEW ? readNewStock(stock) : null;
  const problems = asked ? read.problems : {};
  const busy = addStock.pending || addCamera.pending || addRoll.pending;

  async function save(): Promise<void> {
    setAsked(true);
    if (busy || read.roll === null || newStock?.ok === false) return;
    if (form.camera === NEW && camera.trim() === '') return;
    // A stock or camera that was added stays, also when the roll then is refused: it is chosen instead of typed.
    let { stockId, cameraId } = read.roll;
    if (newStock?.ok === true) {
      const added = await addStock.run(newStock.value);
      if (!added.ok) return;
      stockId = added.output.id;
      set({ stock: String(stockId) });
    }
    if (form.camera === NEW) {
      const added = await addCamera.run({
        name: camera,
        filmFormat: form.filmFormat,
        frameFormat: form.frameFormat,
      });
      if (!added.ok) return;
      cameraId = added.output.id;
      set({ camera: String(cameraId) });
    }
    const added = await addRoll.run({ ...read.roll, stockId, cameraId });
    if (added.ok) onAdded(added.output.id);
  }

  function chooseCamera(value: string): void {
    const known = cameras.find(({ id }) => String(id) === value);
    const filmFormat = known?.filmFormat ?? form.filmFormat;
    set({
      camera: value,
      filmFormat,
      frameFormat: fittingFrame(known?.frameFormat ?? form.frameFormat, filmFormat),
    });
  }
  const failure = addRoll.error ?? addStock.error ?? addCamera.error;
  const taken = isAppError(addRoll.error, 'roll_number_taken')
    ? describeError(addRoll.error).detail
    : undefined;
  const expires = form.expires.trim() === '' ? null : parsePartialDate(form.expires);

  return (
    <Dialog
      title="New roll"
      onClose={onClose}
      onSubmit={() => void save()}
      actions={
        <>
          <Button look="main" submit busy={busy} onPress={() => void save()} keys="Enter">
            Add the roll
          </Button>
          <Button look="quiet" onPress={onClose}>
            Leave
          </Button>
        </>
      }
    >
      <div className="new-roll">
        <TextField
          label="Number"
          numbers
          required
          autoFocus
          value={form.number ?? next ?? ''}
          onChange={(number) => set({ number })}
          error={problems.number ?? taken}
          reading={form.number === null ? 'the next one; it is given once and for life' : undefined}
        />
        <TextField label="Title" value={form.title} onChange={(title) => set({ title })} placeholder="none" />
        <Select
          label="Stock"
          value={form.stock}
          options={[
            { value: NONE, label: 'not known' },
            ...stocks.map(({ id, name }) => ({ value: String(id), label: name })),
            { value: NEW, label: 'another stock…' },
          ]}
          onChange={(value) => set({ stock: value })}
        />
        {form.stock === NEW ? <NewStockFields stock={stock} onChange={setStock} asked={asked} /> : null}
        <Select
          label="Camera"
          value={form.camera}
          options={[
            { value: NONE, label: 'none yet' },
            ...cameras.map(({ id, name }) => ({ value: String(id), label: name })),
            { value: NEW, label: 'another camera…' },
          ]}
          onChange={chooseCamera}
        />
        {form.camera === NEW ? <NewCameraFields name={camera} onChange={setCamera} asked={asked} /> : null}
        <div className="new-roll-pair">
          <Select
            label="Film"
            value={form.filmFormat}
            options={FILM_FORMATS.map(({ id, name }) => ({ value: id, label: name }))}
            onChange={(filmFormat) =>
              set({ filmFormat, frameFormat: fittingFrame(form.frameFormat, filmFormat) })
            }
          />
          <Select
            label="Frames"
            value={form.frameFormat}
            options={frameFormatsOn(form.filmFormat).map(({ id, name }) => ({ value: id, label: name }))}
            onChange={(frameFormat) => set({ frameFormat })}
          />
          <TextField
            label="Exposures"
            inputMode="numeric"
            numbers
            value={form.exposures}
            onChange={(exposures) => set({ exposures })}
            placeholder={usualExposures(form.frameFormat, form.filmFormat)}
            error={problems.exposures}
          />
          <TextField
            label="EI"
            inputMode="numeric"
            numbers
            value={form.exposureIndex}
            onChange={(exposureIndex) => set({ exposureIndex })}
            placeholder="as the stock"
            error={problems.exposureIndex}
          />
        </div>
        <TextField
          label="Expires"
          numbers
          value={form.expires}
          onChange={(text) => set({ expires: text })}
          placeholder="2027-03"
          error={expires?.ok === false && asked ? sentence(describeReason(expires.reason)) : undefined}
          reading={
            expires?.ok === true ? (
              <>read as {describeDate({ ...expires.value, typed: expires.value.edtf })}</>
            ) : undefined
          }
        />
        {failure === null || taken !== undefined ? null : (
          <div role="alert" className="new-roll-failure">
            <p>{describeError(failure).title}</p>
            <p>{describeError(failure).detail}</p>
          </div>
        )}
      </div>
    </Dialog>
  );
}

/** The frame format, or the usual one of the film when it does not go there. */
function fittingFrame(frameFormat: string, filmFormat: string): string {
  const formats = frameFormatsOn(filmFormat);
  if (formats.some(({ id }) => id === frameFormat)) return frameFormat;
  const standard = FILM_FORMATS.find(({ id }) => id === filmFormat)?.standardFrame;
  return standard ?? formats[0]?.id ?? frameFormat;
}

function usualExposures(frameFormat: string, filmFormat: string): string {
  const expected = expectFrames(frameFormat, filmFormat, null);
  return expected.ok ? String(expected.value) : '';
}

function sentence(words: string): string {
  return `${words.charAt(0).toUpperCase()}${words.slice(1)}.`;
}
