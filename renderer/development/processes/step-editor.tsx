import { bathKind } from '../../../shared/api/process-values.ts';
import { BATH_NAMES } from '../../../shared/text/describe-development.ts';
import { Button } from '../../ui/button.tsx';
import { Select } from '../../ui/select.tsx';
import { TextField } from '../../ui/text-field.tsx';
import { findDraftErrors, type StepDraft } from './process-draft.ts';

const DEVELOPERS: readonly string[] = ['developer', 'first_developer', 'colour_developer'];

const SCHEMES = [
  { value: 'unsaid', label: 'not said' },
  { value: 'none', label: 'left to stand' },
  { value: 'continuous', label: 'all the time' },
  { value: 'intermittent', label: 'now and then' },
] as const;

/** Fields of text whose name in the draft is also that of their error. */
type TextName = Exclude<keyof StepDraft, 'key' | 'bath' | 'timing' | 'scheme'>;

export interface StepEditorProps {
  readonly step: StepDraft;
  readonly onStep: (step: StepDraft) => void;
  readonly onUp: (() => void) | null;
  readonly onDown: (() => void) | null;
  readonly onRemove: (() => void) | null;
}

/** The fields of one step. */
export function StepEditor({ step, onStep, onUp, onDown, onRemove }: StepEditorProps) {
  const errors = findDraftErrors(step);
  const change = (changes: Partial<StepDraft>) => onStep({ ...step, ...changes });
  const field = (name: TextName, label: string, reading?: string, placeholder?: string) => (
    <TextField
      label={label}
      value={step[name]}
      onChange={(text) => change({ [name]: text })}
      numbers={name !== 'name' && name !== 'note'}
      error={errors[name]}
      reading={reading}
      placeholder={placeholder ?? ''}
    />
  );
  const called = step.name.trim() === '' ? 'this step' : step.name;
  return (
    <fieldset className="step-editor">
      <legend className="unseen">{called}</legend>
      <div className="development-row step-editor-buttons">
        {onUp === null ? null : (
          <Button look="quiet" onPress={onUp} name={`Up: ${called}`}>
            Up
          </Button>
        )}
        {onDown === null ? null : (
          <Button look="quiet" onPress={onDown} name={`Down: ${called}`}>
            Down
          </Button>
        )}
        {onRemove === null ? null : (
          <Button look="quiet" onPress={onRemove} name={`Leave it out: ${called}`}>
            Leave it out
          </Button>
        )}
      </div>
      <div className="step-editor-fields">
        {field('name', 'Step')}
        <Select
          label="Bath"
          value={step.bath}
          onChange={(bath) => change({ bath })}
          options={bathKind.options.map((value) => ({ value, label: BATH_NAMES[value] }))}
        />
        {field('time', 'Time', undefined, 'your maker’s')}
        <Select
          label="It is"
          value={step.timing}
          onChange={(timing) => change({ timing })}
          options={[
            { value: 'exact', label: 'exact: it makes the picture' },
            { value: 'minimum', label: 'at least: longer does no harm' },
          ]}
        />
        {field('aim', 'Meant, °C')}
        {field('low', 'Lowest, °C')}
        {field('high', 'Highest, °C')}
        <Select
          label="Agitation"
          value={step.scheme}
          onChange={(scheme) => change({ scheme })}
          options={SCHEMES}
        />
        {step.scheme === 'intermittent' ? (
          <>
            {field('first', 'First, s', 'without rest')}
            {field('every', 'Then each, s')}
            {field('long', 'For, s')}
            {field('turns', 'Turns', 'how often it is turned over then, or nothing')}
          </>
        ) : null}
        {DEVELOPERS.includes(step.bath) ? (
          <>
            {field('points', 'Other times', 'minutes at °C, as your maker gives them', '8:00@30, 2:00@45')}
            {field('push', 'Push table', 'time or factor for a stop', '-1=-0:30, 1=0:30')}
          </>
        ) : null}
        {step.bath === 'water' ? null : (
          <>
            {field('capacity', 'Rolls a litre', 'of 80 sq in')}
            {field('shelf', 'Keeps, days')}
            {field(
              'extension',
              'Added time',
              'for every roll before, or a table from a roll on',
              '2%, or 1=3:15, 5=3:30',
            )}
          </>
        )}
        {field('note', 'Note')}
      </div>
    </fieldset>
  );
}
