import { formatTemperature } from '../../../shared/text/format.ts';
import { parseTemperature } from '../../../shared/units/temperature.ts';
import { TextField } from '../../ui/text-field.tsx';
import { TemperatureQuestion } from '../temperature-question.tsx';
import type { Typed } from './use-typed.ts';

interface FieldProps<Name extends string> {
  readonly form: Typed<Name>;
  readonly name: Name;
  readonly label: string;
  readonly reading?: string;
}

/** A number with its unit in the label. */
export function NumberField<Name extends string>({ form, name, label, reading }: FieldProps<Name>) {
  const text = form.text(name);
  return (
    <TextField
      label={label}
      value={text}
      onChange={(typed) => form.set(name, typed)}
      inputMode="decimal"
      numbers
      reading={reading}
      error={text.trim() !== '' && form.number(name) === null ? 'a number such as 600 or 2.5' : undefined}
    />
  );
}

/** A length of time. */
export function TimeField<Name extends string>({ form, name, label, reading }: FieldProps<Name>) {
  const text = form.text(name);
  return (
    <TextField
      label={label}
      value={text}
      onChange={(typed) => form.set(name, typed)}
      numbers
      reading={reading}
      error={text.trim() !== '' && form.seconds(name) === null ? 'a time such as 3:15' : undefined}
    />
  );
}

/** A temperature in °C, or in °F when that is typed behind it; what looks like a slip is asked about. */
export function TemperatureField<Name extends string>({
  form,
  name,
  label,
  usualC,
}: FieldProps<Name> & { readonly usualC: readonly number[] }) {
  const text = form.text(name);
  const celsius = parseTemperature(text);
  const meantC = form.suggestion(name, usualC);
  const isFahrenheit = /f\s*$/i.test(text);
  return (
    <div>
      <TextField
        label={`${label}, °C`}
        value={text}
        onChange={(typed) => form.set(name, typed)}
        inputMode="decimal"
        numbers
        reading={isFahrenheit && celsius !== null ? formatTemperature(celsius) : undefined}
        error={text.trim() !== '' && celsius === null ? 'a temperature such as 37.8 or 100 °F' : undefined}
      />
      {meantC === null || celsius === null ? null : (
        <TemperatureQuestion
          typedC={celsius}
          meantC={meantC}
          onTake={() => form.set(name, meantC.toFixed(1))}
          onInsist={() => form.insist(name)}
        />
      )}
    </div>
  );
}

/** Text that is read by its own rule; `error` says what is wrong with it. */
export function WordsField<Name extends string>({
  form,
  name,
  label,
  reading,
  error,
}: FieldProps<Name> & { readonly error?: string | undefined }) {
  return (
    <TextField
      label={label}
      value={form.text(name)}
      onChange={(typed) => form.set(name, typed)}
      numbers
      reading={reading}
      error={error}
    />
  );
}
