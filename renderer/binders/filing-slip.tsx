import { useState } from 'react';
import { describeError } from '../../shared/text/describe-error.ts';
import type { Binder, Filed } from '../../shared/api/methods/filing-methods.ts';
import { useCommand } from '../api/use-command.ts';
import { useArchive } from '../api/use-query.ts';
import { useNotices } from '../state/notices.tsx';
import { Button } from '../ui/button.tsx';
import { CheckBox } from '../ui/check-box.tsx';
import { Dialog } from '../ui/dialog.tsx';
import { Select } from '../ui/select.tsx';
import { TextField } from '../ui/text-field.tsx';
import { binderWords, count } from './page-words.ts';
import { ProposedPages } from './proposed-pages.tsx';
import { formatCut, readCut } from './read-cut.ts';
import { useFilingChoice } from './use-filing-choice.ts';
import './filing-slip.css';

export interface FilingSlipProps {
  readonly rollId: number;
  readonly binders: readonly Binder[];
  /** The binder that is open, to begin with. */
  readonly binder: Binder | null;
  /** Called when the archive has it, with the placements. */
  readonly onFiled: (filed: Filed) => void;
  readonly onClose: () => void;
}

const NEW_BINDER = 'new';

/** The slip that puts a roll away: into which binder and page, how cut, and at once what that comes to. */
export function FilingSlip({ rollId, binders, binder, onFiled, onClose }: FilingSlipProps) {
  const notices = useNotices();
  const file = useCommand('filing.file', 'here');
  const filing = useFilingChoice(rollId, binders, binder);
  const { choice, given, set, layouts, roll, layout } = filing;
  const {
    data: proposal,
    error,
    former,
  } = useArchive('filing.propose', choice ?? { rollId, binder: '-', page: null, layoutId: '-', cut: null }, {
    when: choice !== null,
    keepFormer: true,
  });
  const { data: frames } = useArchive('frames.ofRoll', { rollId });
  const [tried, setTried] = useState(false);
  const failure = file.error ?? (choice === null ? null : error);
  const cut = readCut(given.cut);
  const binderMissing = choice === null && given.binder.trim() === '';

  async function write(): Promise<void> {
    setTried(true);
    if (choice === null || error !== null || file.pending) return;
    const ended = await file.run(choice);
    if (!ended.ok) return;
    const left = ended.output.leftover.length;
    notices.say(
      `Roll ${roll?.number ?? ''} lies in ${binderWords(choice.binder)}.`,
      left === 0 ? '' : `${count(left, 'frame')} without a pocket: ${ended.output.leftover.join(', ')}.`,
    );
    onFiled(ended.output);
  }
  return (
    <Dialog
      title={roll ? `Put roll ${roll.number} away` : 'Put a roll away'}
      onClose={onClose}
      onSubmit={() => void write()}
      actions={
        <>
          <Button look="main" submit busy={file.pending || former} onPress={() => void write()}>
            {proposal ? `File ${count(proposal.placements.length, 'frame')}` : 'File it'}
          </Button>
          <Button onPress={onClose}>Leave</Button>
        </>
      }
    >
      <div className="filing-slip">
        <div className="filing-slip-fields">
          <Select
            label="Binder"
            value={given.newBinder ? NEW_BINDER : given.binder}
            options={[
              ...binders.map(({ name }) => ({ value: name, label: binderWords(name) })),
              { value: NEW_BINDER, label: 'a new binder' },
            ]}
            onChange={(name) =>
              name === NEW_BINDER
                ? set({ newBinder: true, binder: '' })
                : set({ newBinder: false, binder: name })
            }
          />
          {given.newBinder ? (
            <TextField
              label="Its name"
              value={given.binder}
              onChange={(name) => set({ binder: name })}
              required
              error={tried && binderMissing ? 'It needs a name or a number.' : undefined}
            />
          ) : null}
          <TextField
            label="Page"
            value={given.page}
            onChange={(page) => set({ page })}
            numbers
            inputMode="numeric"
            placeholder="next free"
            error={filing.pageWrong ? 'A page has a whole number.' : undefined}
          />
          <Select
            label="Layout"
            value={layout?.id ?? ''}
            options={layouts.map(({ id, name }) => ({ value: id, label: name }))}
            onChange={(layoutId) => set({ layoutId })}
          />
          <TextField
            label="Cut"
            value={given.cut}
            onChange={(text) => set({ cut: text })}
            numbers
            placeholder={proposal ? formatCut(stripLengths(proposal)) : 'each pocket filled'}
            error={cut.ok ? undefined : 'Frames per strip, such as 6 6 6 4.'}
            reading={given.cut.trim() === '' ? 'each pocket filled' : undefined}
          />
          <CheckBox checked={given.morePages} onChange={(morePages) => set({ morePages })}>
            Go on with further pages
          </CheckBox>
          {failure === null ? null : <Failure error={failure} tried={file.error !== null} />}
          {failure === null && proposal ? <Sums proposal={proposal} /> : null}
        </div>
        <div className="filing-slip-drawing" aria-busy={former}>
          {failure === null && proposal && layout && roll ? (
            <ProposedPages
              proposal={proposal}
              layout={layout}
              roll={roll}
              frames={frames ?? []}
              pages={filing.pages}
            />
          ) : (
            <p className="filing-slip-bare">The pages are drawn here as they would be.</p>
          )}
        </div>
      </div>
    </Dialog>
  );
}

/** Why it does not go in so, or (after it was tried) why it did not. */
function Failure({ error, tried }: { readonly error: Error; readonly tried: boolean }) {
  const { title, detail, advice } = describeError(error);
  return (
    <div role="alert" className="filing-slip-failure">
      <p>{tried ? title : 'The roll does not go in like this'}</p>
      <p>{detail}</p>
      <p>{advice}</p>
    </div>
  );
}

/** How it was reckoned, step by step, and what is left over. */
function Sums({ proposal }: { readonly proposal: Filed }) {
  const { leftover } = proposal;
  return (
    <div role="status" className="filing-slip-sums">
      {leftover.length === 0 ? (
        <p className="filing-slip-whole">The whole roll goes in.</p>
      ) : (
        <p className="filing-slip-left">
          {count(leftover.length, 'frame')} left over: {leftover.join(', ')}
        </p>
      )}
      <ol>
        {proposal.explanation.map((sentence) => (
          <li key={sentence}>{sentence}</li>
        ))}
      </ol>
    </div>
  );
}

/** Frames in each strip of a proposal, in the order of the film. */
function stripLengths(proposal: Filed): readonly number[] {
  const lengths: number[] = [];
  let last = '';
  for (const { page, row, position } of proposal.placements) {
    const follows = last === `${page} ${row} ${position - 1}`;
    if (follows) lengths[lengths.length - 1] = (lengths.at(-1) ?? 0) + 1;
    else lengths.push(1);
    last = `${page} ${row} ${position}`;
  }
  return lengths;
}
