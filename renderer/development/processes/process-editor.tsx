import { useState } from 'react';
import type { ProcessEntry } from '../../../shared/api/methods/bath-methods.ts';
import { yours } from '../../../shared/domain/development/source.ts';
import { describeError } from '../../../shared/text/describe-error.ts';
import { useCommand } from '../../api/use-command.ts';
import { useViewState } from '../../state/view-state.tsx';
import { Button } from '../../ui/button.tsx';
import { TextField } from '../../ui/text-field.tsx';
import { addedStep, draftStep, findDraftErrors, processOfDraft, type StepDraft } from './process-draft.ts';
import { StepEditor } from './step-editor.tsx';

/** Changes a process of the user's own, or makes one as a copy of a shipped one. */
export function ProcessEditor({ entry }: { readonly entry: ProcessEntry }) {
  const { process, kind, id, key } = entry;
  const viewState = useViewState();
  const [name, setName] = useState(id === null ? '' : entry.name);
  const [note, setNote] = useState(id === null ? '' : (process.note ?? ''));
  const [source, setSource] = useState('');
  const [steps, setSteps] = useState<readonly StepDraft[]>(() => process.steps.map(draftStep));
  const add = useCommand('processes.add', 'here');
  const change = useCommand('processes.change', 'here');
  const error = add.error ?? change.error;
  const wrong = steps.some((step) => Object.keys(findDraftErrors(step)).length > 0);
  const show = (shown: string) => viewState.go({ view: 'development', ids: ['processes', shown] });

  async function save(): Promise<void> {
    const from = yours(source.trim() === '' ? 'Entered by you' : source.trim());
    const made = processOfDraft(process, name, note, steps, from);
    if (id === null) {
      const ended = await add.run({ process: made, kind, copiedFrom: key });
      if (ended.ok) show(`own-${ended.output.id}`);
    } else if ((await change.run({ id, process: made, kind })).ok) show(key);
  }
  function move(at: number, by: number): void {
    const moved = [...steps];
    const [step] = moved.splice(at, 1);
    if (step) moved.splice(at + by, 0, step);
    setSteps(moved);
  }
  return (
    <form
      className="process"
      aria-labelledby="process"
      onSubmit={(event) => {
        event.preventDefault();
        if (!wrong && name.trim() !== '') void save();
      }}
    >
      <header className="development-head">
        <h1 id="process">{id === null ? `A copy of ${entry.name}` : `Edit ${entry.name}`}</h1>
        <div className="development-row">
          <Button onPress={() => show(key)}>Cancel</Button>
          <Button
            look="main"
            submit
            onPress={() => void save()}
            busy={add.pending || change.pending}
            unavailable={
              name.trim() === '' ? 'It needs a name' : wrong ? 'Correct what is marked first' : undefined
            }
          >
            Save the process
          </Button>
        </div>
      </header>
      {error === null ? null : (
        <p role="alert" className="plan-refused">
          {describeError(error).detail} {describeError(error).advice}
        </p>
      )}
      <div className="sum-fields">
        <TextField label="Name" value={name} onChange={setName} required autoFocus={id === null} />
        <TextField
          label="Source"
          value={source}
          onChange={setSource}
          placeholder="leaflet of the kit, page 2"
          reading="of the numbers you change here; the others keep theirs"
        />
        <TextField label="Note" value={note} onChange={setNote} lines={2} />
      </div>
      <ol className="process-steps">
        {steps.map((step, at) => (
          <li key={step.key}>
            <StepEditor
              step={step}
              onStep={(changed) => setSteps(steps.map((each) => (each.key === step.key ? changed : each)))}
              onUp={at === 0 ? null : () => move(at, -1)}
              onDown={at === steps.length - 1 ? null : () => move(at, 1)}
              onRemove={
                steps.length === 1
                  ? null
                  : () => setSteps(steps.filter(({ key: other }) => other !== step.key))
              }
            />
          </li>
        ))}
      </ol>
      <div>
        <Button onPress={() => setSteps([...steps, addedStep(steps)])}>Add a step</Button>
      </div>
    </form>
  );
}
