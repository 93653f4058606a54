import type { Given } from '../../shared/api/contract.ts';
import { processKind, type ProcessKind } from '../../shared/api/values.ts';
import type { Checked } from '../../shared/domain/checked.ts';
import { accept, refuse } from '../../shared/domain/checked.ts';
import { PROCESS_NAMES } from '../../shared/text/format.ts';
import { Select } from '../ui/select.tsx';
import { TextField } from '../ui/text-field.tsx';
import { readCount } from './roll-form.ts';

/** A stock as it is typed beside a new roll. */
export interface NewStock {
  readonly name: string;
  readonly iso: string;
  readonly process: ProcessKind;
}

/** The stock as the engine takes it, or what is wrong with it. */
export function readNewStock(stock: NewStock): Checked<Given<'stocks.add'>, 'name' | 'iso'> {
  const iso = readCount(stock.iso, 100_000);
  if (stock.name.trim() === '') return refuse('name');
  return iso === undefined ? refuse('iso') : accept({ name: stock.name.trim(), iso, process: stock.process });
}

interface NewStockFieldsProps {
  readonly stock: NewStock;
  readonly onChange: (stock: NewStock) => void;
  /** Whether saving was tried, so that what is missing is said. */
  readonly asked: boolean;
}

/** The few facts that a new stock needs. */
export function NewStockFields({ stock, onChange, asked }: NewStockFieldsProps) {
  const read = readNewStock(stock);
  const wrong = asked && !read.ok ? read.reason : null;
  return (
    <fieldset className="new-roll-added">
      <legend className="unseen">The new stock</legend>
      <TextField
        label="Stock name"
        autoFocus
        value={stock.name}
        onChange={(name) => onChange({ ...stock, name })}
        error={wrong === 'name' ? 'A stock needs a name.' : undefined}
      />
      <TextField
        label="ISO"
        numbers
        inputMode="numeric"
        value={stock.iso}
        onChange={(iso) => onChange({ ...stock, iso })}
        error={wrong === 'iso' ? 'A film speed such as 400.' : undefined}
      />
      <Select
        label="Process"
        value={stock.process}
        options={processKind.options.map((value) => ({ value, label: PROCESS_NAMES[value] }))}
        onChange={(process) => onChange({ ...stock, process })}
      />
    </fieldset>
  );
}

interface NewCameraFieldsProps {
  readonly name: string;
  readonly onChange: (name: string) => void;
  readonly asked: boolean;
}

/** A new camera takes its film and frames from the roll. */
export function NewCameraFields({ name, onChange, asked }: NewCameraFieldsProps) {
  return (
    <fieldset className="new-roll-added">
      <legend className="unseen">The new camera</legend>
      <TextField
        label="Camera name"
        autoFocus
        value={name}
        onChange={onChange}
        error={asked && name.trim() === '' ? 'A camera needs a name.' : undefined}
        reading="its film and frames are those chosen below"
      />
    </fieldset>
  );
}
