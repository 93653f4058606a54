import type { ProcessEntry } from '../../../shared/api/methods/bath-methods.ts';
import { parsePushTable, parseTimePoints } from '../../../shared/domain/development/rule-text.ts';
import { yours } from '../../../shared/domain/development/source.ts';
import { ChoiceRow } from '../../ui/choice-row.tsx';
import { Select } from '../../ui/select.tsx';
import { developerOf, OWN, ownStep, type StepToTime } from './own-step.ts';
import { WordsField } from './sum-fields.tsx';
import type { Typed } from './use-typed.ts';

export type StepField = 'process' | 'rows' | 'push-table' | 'family';

/** What stands in the fields of a developer before anybody typed. */
export const FIRST_STEP: Readonly<Record<StepField, string>> = {
  process: 'c41-two-bath',
  rows: '3:30@38.9, 8:00@30',
  'push-table': '-1=-0:30, 1=0:30',
  family: 'colour_negative',
};

/** The developer the fields name; null when there is none, or its rows cannot be read. */
export function stepOfFields(form: Typed<StepField>, processes: readonly ProcessEntry[]): StepToTime | null {
  if (form.text('process') === OWN) {
    const family = form.text('family') === 'black_and_white' ? 'black_and_white' : 'colour_negative';
    return ownStep(form.text('rows'), form.text('push-table'), family);
  }
  const entry = processes.find(({ key }) => key === form.text('process'));
  return entry ? developerOf(entry) : null;
}

/** Chooses a developer: that of a process, or times that are typed. */
export function StepFields({
  form,
  processes,
  withPush,
}: {
  readonly form: Typed<StepField>;
  readonly processes: readonly ProcessEntry[];
  readonly withPush: boolean;
}) {
  const isOwn = form.text('process') === OWN;
  const source = yours('');
  const known = processes.filter((entry) => developerOf(entry) !== null);
  return (
    <>
      <Select
        label="Developer"
        value={form.text('process')}
        onChange={(key) => form.set('process', key)}
        options={[
          ...known.map(({ key, name }) => ({ value: key, label: name })),
          { value: OWN, label: 'times I type' },
        ]}
      />
      {isOwn ? (
        <>
          <WordsField
            form={form}
            name="rows"
            label="Times"
            reading="as your maker gives them, in minutes at °C"
            error={
              parseTimePoints(form.text('rows'), source).ok ? undefined : 'rows such as 8:00@30, 2:00@45'
            }
          />
          <ChoiceRow
            label="It is"
            value={form.text('family') === 'black_and_white' ? 'black_and_white' : 'colour_negative'}
            onChange={(family) => form.set('family', family)}
            options={[
              { value: 'colour_negative', label: 'colour' },
              { value: 'black_and_white', label: 'black-and-white' },
            ]}
          />
          {withPush ? (
            <WordsField
              form={form}
              name="push-table"
              label="Push table"
              reading="time or factor for a stop; or nothing"
              error={
                parsePushTable(form.text('push-table'), source).ok
                  ? undefined
                  : 'rows such as -1=-0:30, 1=0:30, or 1=x1.4'
              }
            />
          ) : null}
        </>
      ) : null}
    </>
  );
}
