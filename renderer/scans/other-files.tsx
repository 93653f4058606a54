import { useState, type ReactNode } from 'react';
import type { ProposedFile, ScanProposal } from '../../shared/api/methods/scan-methods.ts';
import { normalizeFrameLabel } from '../../shared/domain/frame/frame-label.ts';
import { describeReason } from '../../shared/text/describe-reason.ts';
import { previewAddress } from '../../shared/api/preview-url.ts';
import { Button } from '../ui/button.tsx';
import { TextField } from '../ui/text-field.tsx';
import type { Correction } from './corrections.ts';
import { count, fileName } from './scan-words.ts';

export interface OtherFilesProps {
  readonly files: readonly ProposedFile[];
  readonly litter: ScanProposal['litter'];
  readonly onCorrect: (correction: Correction) => void;
  readonly onReadAgain: () => void;
}

/** What of the folder is not on the film: left out, not whole, not yet whole; and what is no scan at all. */
export function OtherFiles({ files, litter, onCorrect, onReadAgain }: OtherFilesProps) {
  const left = files.filter((file) => file.state === 'skipped' && file.frames.length === 0);
  const failed = files.filter((file) => file.state === 'failed');
  const waiting = files.filter((file) => file.state === 'waiting');
  const matters = litter.filter((file) => file.matters);
  const rest = litter.filter((file) => !file.matters);
  return (
    <>
      {waiting.length > 0 ? (
        <Section
          title={`${count(waiting.length, 'file')} still being written`}
          says="Left alone until written to the end."
          action={<Button onPress={onReadAgain}>Look again</Button>}
        >
          {waiting.map((file) => (
            <Plain key={file.path} path={file.path} reason={file.reason} />
          ))}
        </Section>
      ) : null}
      {failed.length > 0 ? (
        <Section
          title={`${count(failed.length, 'file')} that cannot be used`}
          says="Nothing was changed. After a new scan or copy, read the folder again."
        >
          {failed.map((file) => (
            <Plain key={file.path} path={file.path} reason={file.remark ?? file.reason} />
          ))}
        </Section>
      ) : null}
      {left.length > 0 ? (
        <Section title={`${count(left.length, 'file')} left out`} says="No frame of this roll.">
          {left.map((file) => (
            <LeftOut key={file.path} file={file} onCorrect={onCorrect} />
          ))}
        </Section>
      ) : null}
      {matters.length > 0 ? (
        <Section title="Worth a look" says="">
          {matters.map((file) => (
            <Plain key={file.path} path={file.path} reason={file.reason} />
          ))}
        </Section>
      ) : null}
      {rest.length > 0 ? (
        <details className="other-litter">
          <summary>{count(rest.length, 'other file')} in the folder, no scans</summary>
          <ul>
            {rest.map((file) => (
              <Plain key={file.path} path={file.path} reason={file.reason} />
            ))}
          </ul>
        </details>
      ) : null}
    </>
  );
}

interface SectionProps {
  readonly title: string;
  readonly says: string;
  readonly action?: ReactNode;
  readonly children: ReactNode;
}

function Section({ title, says, action, children }: SectionProps) {
  return (
    <section className="other-files" aria-label={title}>
      <div className="other-head">
        <h3>{title}</h3>
        <p>{says}</p>
        {action}
      </div>
      <ul>{children}</ul>
    </section>
  );
}

function Plain({ path, reason }: { readonly path: string; readonly reason: string }) {
  return (
    <li className="other-file">
      <span className="other-name" title={path}>
        {fileName(path)}
      </span>
      <span className="other-reason">{reason}</span>
    </li>
  );
}

function LeftOut({
  file,
  onCorrect,
}: {
  readonly file: ProposedFile;
  readonly onCorrect: (correction: Correction) => void;
}) {
  const [text, setText] = useState('');
  const read = normalizeFrameLabel(text);
  const place = () => {
    if (read.ok) onCorrect({ kind: 'place', path: file.path, label: read.value });
  };
  return (
    <li className="other-file other-left">
      {file.pictureId === null ? (
        <span />
      ) : (
        <img src={previewAddress(file.pictureId, 'small')} alt="" loading="lazy" decoding="async" />
      )}
      <span className="other-name" title={file.path}>
        {fileName(file.path)}
      </span>
      <span className="other-reason">{file.reason}</span>
      <span className="other-place">
        <TextField
          label={`Frame that ${fileName(file.path)} shows`}
          labelPlace="unseen"
          placeholder="Frame"
          value={text}
          numbers
          onChange={setText}
          error={text === '' || read.ok ? undefined : describeReason(read.reason)}
          onKeyDown={(event) => {
            if (event.key !== 'Enter' || event.ctrlKey || event.metaKey) return;
            event.preventDefault();
            place();
          }}
        />
        <Button
          name={`Put ${fileName(file.path)} on that frame`}
          onPress={place}
          {...(read.ok ? {} : { unavailable: '' })}
        >
          Put it there
        </Button>
      </span>
    </li>
  );
}
