import { useState } from 'react';
import type { ProposedFile } from '../../shared/api/methods/scan-methods.ts';
import { normalizeFrameLabel } from '../../shared/domain/frame/frame-label.ts';
import { describeReason } from '../../shared/text/describe-reason.ts';
import { useCommand } from '../api/use-command.ts';
import { drawnFrame } from '../film/drawn-frame.ts';
import { frameGeometry } from '../film/film-geometry.ts';
import { FilmPicture } from '../film/film-picture.tsx';
import { Button } from '../ui/button.tsx';
import { TextField } from '../ui/text-field.tsx';
import type { Correction } from './corrections.ts';
import { pictureOf, type FilmCell, type ScannedRoll } from './film-cells.ts';
import { describeStanding, fileName } from './scan-words.ts';

export interface FrameSlipProps {
  readonly cell: FilmCell;
  readonly roll: ScannedRoll;
  readonly byHand: ReadonlySet<string>;
  readonly onCorrect: (correction: Correction) => void;
}

/** One frame: what would show it and why, what it has already, and what puts it right. */
export function FrameSlip({ cell, roll, byHand, onCorrect }: FrameSlipProps) {
  const first = cell.files[0];
  const before = cell.known ? drawnFrame(cell.known, roll.filmFormat, 'large').picture : null;
  const rescan = cell.fresh && before !== null;
  const size = frameGeometry(roll.frameFormat, roll.filmFormat);
  const picture = first ? pictureOf(first, cell.label, 'large') : before;
  return (
    <section className="frame-slip" aria-labelledby="frame-slip-title">
      <h2 id="frame-slip-title">
        Frame <span className="numbers">{cell.label}</span>
        {cell.known?.caption ? <span className="frame-slip-caption">{cell.known.caption}</span> : null}
      </h2>
      <div className={rescan ? 'frame-slip-pictures frame-slip-two' : 'frame-slip-pictures'}>
        {picture ? (
          <figure>
            <div className="frame-slip-picture" style={{ aspectRatio: `${size.widthMm} / ${size.heightMm}` }}>
              <FilmPicture picture={picture} width={size.widthMm} height={size.heightMm} loading="eager" />
            </div>
            {rescan ? <figcaption>this folder</figcaption> : null}
          </figure>
        ) : null}
        {rescan ? (
          <figure>
            <div className="frame-slip-picture" style={{ aspectRatio: `${size.widthMm} / ${size.heightMm}` }}>
              <FilmPicture picture={before} width={size.widthMm} height={size.heightMm} loading="eager" />
            </div>
            <figcaption>recorded before</figcaption>
          </figure>
        ) : null}
      </div>
      {cell.files.length === 0 ? (
        <p className="frame-slip-none">
          No file of this folder shows this frame. It stays on the film, without a scan from here.
        </p>
      ) : (
        cell.files.map((file) => (
          <FileFacts
            key={file.path}
            file={file}
            label={cell.label}
            tied={tieOf(file, cell)}
            byHand={byHand.has(file.path)}
            onCorrect={onCorrect}
          />
        ))
      )}
    </section>
  );
}

interface FileFactsProps {
  readonly file: ProposedFile;
  readonly label: string;
  /** The frame it is tied to already; null where it is not. */
  readonly tied: { readonly id: number; readonly rollId: number } | null;
  readonly byHand: boolean;
  readonly onCorrect: (correction: Correction) => void;
}

const VERSION_WORDS: Readonly<Record<string, string>> = {
  raw: 'raw scan',
  positive: 'positive',
  infrared: 'infrared',
  small: 'small version',
  copy: 'copy',
  rescan: 'rescan',
};

function FileFacts({ file, label, tied, byHand, onCorrect }: FileFactsProps) {
  const shown = file.frames.find((frame) => frame.label === label);
  const name = fileName(file.path);
  const part = [
    VERSION_WORDS[file.version],
    shown && shown.page > 0 ? `page ${shown.page + 1} of the file` : undefined,
    shown && (shown.region.width < 1 || shown.region.height < 1) ? 'a part of the picture' : undefined,
  ].filter((words) => words !== undefined);
  return (
    <div className="frame-slip-file">
      <p className="frame-slip-name" title={file.path}>
        {name}
        {part.length > 0 ? <span className="frame-slip-part"> {part.join(', ')}</span> : null}
      </p>
      <p>
        <strong>{describeStanding(file, byHand)}</strong>
        {file.reason === '' ? '' : `: ${file.reason}`}
      </p>
      {file.remark === null ? null : <p className="frame-slip-remark">{file.remark}</p>}
      {tied === null || file.scanId === null ? null : (
        <TakeOff rollId={tied.rollId} scanId={file.scanId} frameId={tied.id} name={name} label={label} />
      )}
      {file.state === 'done' ? <Fixes path={file.path} label={label} onCorrect={onCorrect} /> : null}
    </div>
  );
}

/** The frame of the cell, where the file is tied to it already. */
function tieOf(file: ProposedFile, { known }: FilmCell): FileFactsProps['tied'] {
  return known?.versions.some(({ scanId }) => scanId === file.scanId) === true ? known : null;
}

interface TakeOffProps {
  readonly rollId: number;
  readonly scanId: number;
  readonly frameId: number;
  readonly name: string;
  readonly label: string;
}

/** Takes a file off a frame that it was wrongly tied to; the proposal then asks anew where it belongs. */
function TakeOff({ rollId, scanId, frameId, name, label }: TakeOffProps) {
  const untie = useCommand('scans.untie');
  return (
    <div className="frame-slip-ways">
      <Button
        busy={untie.pending}
        onPress={() => void untie.run({ rollId, scanIds: [scanId], frameId })}
        name={`Take ${name} off frame ${label}`}
      >
        Take it off this frame
      </Button>
    </div>
  );
}

interface FixesProps {
  readonly path: string;
  readonly label: string;
  readonly onCorrect: (correction: Correction) => void;
}

function Fixes({ path, label, onCorrect }: FixesProps) {
  const [text, setText] = useState(label);
  const read = normalizeFrameLabel(text);
  const count = () => {
    if (read.ok && read.value !== label) onCorrect({ kind: 'count from', path, label: read.value });
  };
  return (
    <div className="frame-slip-fixes">
      <div className="frame-slip-count">
        <TextField
          label="It is frame"
          value={text}
          numbers
          onChange={setText}
          error={read.ok ? undefined : describeReason(read.reason)}
          onKeyDown={(event) => {
            if (event.key !== 'Enter' || event.ctrlKey || event.metaKey) return;
            event.preventDefault();
            count();
          }}
        />
        <Button onPress={count} {...(read.ok && read.value !== label ? {} : { unavailable: '' })}>
          Count on from here
        </Button>
      </div>
      <div className="frame-slip-ways">
        <Button keys="Del" onPress={() => onCorrect({ kind: 'skip', path })}>
          Skip it, move the rest up
        </Button>
        <Button look="quiet" onPress={() => onCorrect({ kind: 'leave out', path })}>
          Leave it out
        </Button>
        <Button look="quiet" onPress={() => onCorrect({ kind: 'end before', path })}>
          Another roll from here on
        </Button>
      </div>
    </div>
  );
}
