import { useMemo, useState, type KeyboardEvent } from 'react';
import type { Given, Output } from '../../shared/api/contract.ts';
import type { RollRow } from '../../shared/api/methods/film-methods.ts';
import { describeError } from '../../shared/text/describe-error.ts';
import { useCommand } from '../api/use-command.ts';
import { useArchive } from '../api/use-query.ts';
import { Button } from '../ui/button.tsx';
import { Notice } from '../ui/notice.tsx';
import { applyCorrections, type Correction } from './corrections.ts';
import { cellsOf } from './film-cells.ts';
import { FrameSlip } from './frame-slip.tsx';
import { OtherFiles } from './other-files.tsx';
import { ProposedFilm } from './proposed-film.tsx';
import { Questions } from './questions.tsx';
import { Recorded } from './recorded.tsx';
import { areRecorded, keepRecorded } from './recorded-files.ts';
import { count, describeAdjustReason, describeCorrection } from './scan-words.ts';

export interface ProposalDeskProps {
  readonly folder: string;
  readonly roll: RollRow;
  readonly onReadAgain: () => void;
}

type Options = Given<'scans.propose'>['options'];

interface RecordedScans {
  readonly files: readonly { readonly scanId: number; readonly labels: readonly string[] }[];
  readonly output: Output<'scans.accept'>;
}

/** What a folder shows of a roll, beside the film as it would be; put right here, then recorded. */
export function ProposalDesk({ folder, roll, onReadAgain }: ProposalDeskProps) {
  const [options, setOptions] = useState<Options>({});
  const [corrections, setCorrections] = useState<readonly Correction[]>([]);
  const [refused, setRefused] = useState<string | null>(null);
  const [at, setAt] = useState<number | null>(null);
  const [recorded, setRecorded] = useState<RecordedScans | null>(null);
  const record = useCommand('scans.accept', 'here');
  const proposal = useArchive('scans.propose', { folder, rollId: roll.id, options }, { keepFormer: true });
  const known = useArchive('frames.ofRoll', { rollId: roll.id });

  const open = useMemo(
    () => (proposal.data && known.data ? keepRecorded(proposal.data, known.data) : null),
    [proposal.data, known.data],
  );
  const corrected = useMemo(() => (open ? applyCorrections(open, corrections) : null), [open, corrections]);
  const cells = useMemo(
    () =>
      corrected?.ok && known.data
        ? cellsOf(corrected.value.files, corrected.value.byHand, known.data, roll)
        : [],
    [corrected, known.data, roll],
  );

  const error = proposal.error ?? known.error;
  if (error) return <Notice kind="failed" {...describeError(error)} />;
  if (!open || !corrected || !known.data) {
    return (
      <p className="scans-wait" role="status">
        Working out which scan shows which frame…
      </p>
    );
  }
  const data = open;
  if (!corrected.ok) {
    // The folder has changed under the corrections, so that one of them is no longer possible.
    return (
      <Notice
        kind="warning"
        title="The corrections no longer go with the folder"
        detail={describeAdjustReason(corrected.reason)}
        actions={<Button onPress={() => setCorrections([])}>Begin again</Button>}
      />
    );
  }
  const { files, questions, byHand } = corrected.value;
  const ready = files.filter(
    (file) => file.state === 'done' && file.frames.length > 0 && file.scanId !== null,
  );
  // Undone elsewhere, it is not said to be recorded any more.
  const holds = recorded !== null && areRecorded(recorded.files, known.data);
  const shown = cells.find((cell) => cell.at === at) ?? cells.find((cell) => cell.fresh) ?? cells[0] ?? null;

  function correct(correction: Correction): void {
    setRecorded(null);
    const next = [...corrections, correction];
    const tried = applyCorrections(data, next);
    setRefused(tried.ok ? null : describeAdjustReason(tried.reason));
    if (tried.ok) setCorrections(next);
  }
  function answer(chosen: Options): void {
    setRecorded(null);
    setCorrections([]);
    setOptions({ ...options, ...withoutNulls(chosen) });
  }
  async function recordAll(): Promise<void> {
    if (ready.length === 0) return;
    const ended = await record.run({
      rollId: roll.id,
      files: ready.flatMap(({ scanId, version, reason, confidence, frames }) =>
        scanId === null
          ? []
          : [
              {
                scanId,
                version,
                reason: reason.slice(0, 1000),
                confidence,
                frames: frames.map(({ label, page, region }) => ({ label, page, region })),
              },
            ],
      ),
    });
    if (!ended.ok) return;
    const left = files.filter((file) => byHand.has(file.path) && file.frames.length === 0);
    setRecorded({
      files: ready.flatMap(({ scanId, frames }) =>
        scanId === null ? [] : [{ scanId, labels: frames.map(({ label }) => label) }],
      ),
      output: ended.output,
    });
    setCorrections([]);
    // What was left out by hand stays out.
    if (left.length > 0) {
      setOptions({ ...options, skip: [...(options.skip ?? []), ...left.map(({ path }) => path)] });
    }
  }
  function press(event: KeyboardEvent): void {
    const path = shown?.files.find((file) => file.state === 'done')?.path;
    if (event.key === 'Enter' && (event.ctrlKey || event.metaKey)) void recordAll();
    else if (event.altKey && event.key === 'ArrowRight') correct({ kind: 'shift', steps: 1 });
    else if (event.altKey && event.key === 'ArrowLeft') correct({ kind: 'shift', steps: -1 });
    else if (event.key === 'Delete' && path !== undefined && isFrame(event.target))
      correct({ kind: 'skip', path });
    else return;
    event.preventDefault();
  }

  return (
    // Shortcuts of the whole desk; the frames and fields within carry the focus.
    // oxlint-disable-next-line jsx-a11y/no-static-element-interactions
    <div className="scans-desk" onKeyDown={press}>
      <div className="scans-film">
        <Summary ready={ready.length} cells={cells.length} notes={data.notes} onCorrect={correct} />
        {cells.length > 0 ? (
          <ProposedFilm cells={cells} roll={roll} byHand={byHand} at={shown?.at ?? null} onAt={setAt} />
        ) : null}
        <OtherFiles files={files} litter={data.litter} onCorrect={correct} onReadAgain={onReadAgain} />
      </div>
      <div className="scans-side">
        {recorded && holds ? <Recorded recorded={recorded.output} roll={roll} /> : null}
        {refused === null ? null : (
          <Notice
            kind="warning"
            title="That cannot be done"
            detail={`With it, ${refused}.`}
            onDismiss={() => setRefused(null)}
          />
        )}
        <Questions questions={questions} onAnswer={answer} />
        {shown ? (
          <FrameSlip key={shown.label} cell={shown} roll={roll} byHand={byHand} onCorrect={correct} />
        ) : null}
        {corrections.length > 0 ? (
          <section className="scans-corrections" aria-label="Put right by hand">
            <ol>
              {corrections.map((correction, index) => (
                // The same correction may be made twice; its place is its name.
                // oxlint-disable-next-line react/no-array-index-key
                <li key={index}>{describeCorrection(correction)}</li>
              ))}
            </ol>
            <Button look="quiet" onPress={() => setCorrections(corrections.slice(0, -1))}>
              Take the last one back
            </Button>
          </section>
        ) : null}
        <div className="scans-record">
          {record.error ? (
            <Notice kind="failed" {...describeError(record.error)} onDismiss={record.clear} />
          ) : null}
          <Button
            look="main"
            keys="Mod Enter"
            busy={record.pending || proposal.former}
            onPress={() => void recordAll()}
            {...(ready.length === 0 ? { unavailable: 'nothing new to record' } : {})}
          >
            Record {count(ready.length, 'scan')} on {roll.number}
          </Button>
        </div>
      </div>
    </div>
  );
}

function withoutNulls(options: Options): Options {
  return Object.fromEntries(
    Object.entries(options).filter(
      ([, value]) => value !== null && !(Array.isArray(value) && value.length === 0),
    ),
  );
}

function isFrame(target: EventTarget): boolean {
  return target instanceof HTMLElement && target.dataset['frame'] !== undefined;
}

interface SummaryProps {
  readonly ready: number;
  readonly cells: number;
  readonly notes: readonly string[];
  readonly onCorrect: (correction: Correction) => void;
}

/** What the folder comes to, and what puts all of it right at once. */
function Summary({ ready, cells, notes, onCorrect }: SummaryProps) {
  return (
    <div className="scans-summary">
      <div>
        <h2>
          {ready === 0
            ? 'No scan of this folder is new to the roll'
            : `${count(ready, 'scan')} for ${count(cells, 'frame')} of film`}
        </h2>
        {notes.length > 0 ? (
          <ul className="scans-notes">
            {notes.map((note) => (
              <li key={note}>{note}</li>
            ))}
          </ul>
        ) : null}
      </div>
      {ready > 0 ? (
        <div className="scans-all" role="group" aria-label="Put all of them right">
          <Button
            keys="Alt ←"

            onPress={() => onCorrect({ kind: 'shift', steps: -1 })}
          >
            All one back
          </Button>
          <Button
            keys="Alt →"

            onPress={() => onCorrect({ kind: 'shift', steps: 1 })}
          >
            All one on
          </Button>
          <Button onPress={() => onCorrect({ kind: 'reverse' })}>Turn round</Button>
        </div>
      ) : null}
    </div>
  );
}
