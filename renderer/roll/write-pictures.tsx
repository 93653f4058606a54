import { useState } from 'react';
import type { Frame } from '../../shared/api/methods/film-methods.ts';
import { FolderField } from '../api/folder-field.tsx';
import { useCommand } from '../api/use-command.ts';
import { useJobs } from '../api/use-jobs.ts';
import { useArchive } from '../api/use-query.ts';
import { Button } from '../ui/button.tsx';
import { CheckBox } from '../ui/check-box.tsx';
import { Dialog } from '../ui/dialog.tsx';
import { Select } from '../ui/select.tsx';
import { count } from './roll-words.ts';

export interface WritePicturesProps {
  readonly frames: readonly Pick<Frame, 'id' | 'label'>[];
  readonly rollNumber: string;
  readonly onClose: () => void;
}

const KINDS = [
  { value: 'png 8', label: 'PNG, 8 bits' },
  { value: 'png 16', label: 'PNG, 16 bits where the scan has them' },
  { value: 'tiff 8', label: 'TIFF, 8 bits' },
  { value: 'tiff 16', label: 'TIFF, 16 bits where the scan has them' },
  { value: 'jpeg 8', label: 'JPEG' },
] as const;
type Kind = (typeof KINDS)[number]['value'];

const SIZES = [
  { value: 'whole', label: 'every pixel of the scan' },
  { value: '4000', label: '4000 px on the longer side' },
  { value: '2000', label: '2000 px on the longer side' },
  { value: '1200', label: '1200 px on the longer side' },
] as const;
type Size = (typeof SIZES)[number]['value'];

function formatOf(kind: Kind): { format: 'png' | 'tiff' | 'jpeg'; bits: 8 | 16 } {
  const format = kind.startsWith('png') ? 'png' : kind.startsWith('tiff') ? 'tiff' : 'jpeg';
  return { format, bits: kind.endsWith('16') ? 16 : 8 };
}

/** Writing frames as they are shown into a folder: says beforehand which files that makes, and leaves what is there. */
export function WritePictures({ frames, rollNumber, onClose }: WritePicturesProps) {
  const [folder, setFolder] = useState('');
  const [kind, setKind] = useState<Kind>('png 8');
  const [size, setSize] = useState<Size>('whole');
  const [overwrite, setOverwrite] = useState(false);
  const [jobId, setJobId] = useState<number | null>(null);
  const write = useCommand('positives.export');
  const { format, bits } = formatOf(kind);
  const frameIds = frames.map(({ id }) => id);
  const plan = useArchive(
    'positives.plan',
    { frameIds, folder: folder === '' ? '.' : folder, format },
    { keepFormer: true },
  );
  const job = useJobs().find(({ id }) => id === jobId);
  const files = plan.data?.files ?? [];
  const there = folder === '' ? 0 : files.filter(({ exists }) => exists).length;
  const what = frames.length === 1 ? `frame ${frames[0]?.label ?? ''}` : count(frames.length, 'frame');

  async function start(): Promise<void> {
    if (folder.trim() === '' || write.pending) return;
    const longSide = size === 'whole' ? null : Number(size);
    const ended = await write.run({ frameIds, folder: folder.trim(), format, bits, longSide, overwrite });
    if (ended.ok) setJobId(ended.output.id);
  }
  const title = `Write ${what} of ${rollNumber} as shown`;
  if (jobId !== null) {
    return (
      <Dialog
        title={title}
        onClose={onClose}
        actions={
          <Button look="main" onPress={onClose}>
            {job === undefined || job.state === 'running' ? 'Go on meanwhile' : 'Done'}
          </Button>
        }
      >
        <p role="status">{endWords(job, folder)}</p>
      </Dialog>
    );
  }
  return (
    <Dialog
      title={title}
      onClose={onClose}
      onSubmit={() => void start()}
      actions={
        <>
          <Button
            look="main"
            submit
            busy={write.pending}
            onPress={() => void start()}
            {...(folder.trim() === '' ? { unavailable: 'Choose a folder.' } : {})}
          >
            Write
          </Button>
          <Button look="quiet" onPress={onClose} keys="Esc">
            Leave
          </Button>
        </>
      }
    >
      <div className="write-pictures">
        <FolderField
          label="Folder"
          title="The folder for the pictures"
          folder={folder}
          onFolder={setFolder}
        />
        <Select label="As" options={KINDS} value={kind} onChange={setKind} />
        <Select label="Size" options={SIZES} value={size} onChange={setSize} />
        <p>
          {files.length === 0
            ? 'No frame has a scan to be written.'
            : files.length === 1
              ? `Makes ${files[0]?.name ?? ''}.`
              : `Makes ${files.length} files, ${files[0]?.name ?? ''} to ${files.at(-1)?.name ?? ''}.`}
          {there > 0 ? ` ${there} of that name ${there === 1 ? 'is' : 'are'} there already.` : ''}
        </p>
        {there > 0 ? (
          <CheckBox checked={overwrite} onChange={setOverwrite}>
            Write over what is there
          </CheckBox>
        ) : null}
      </div>
    </Dialog>
  );
}

function endWords(job: ReturnType<typeof useJobs>[number] | undefined, folder: string): string {
  if (job === undefined) return 'The pictures are being written.';
  const written = job.done - job.failed;
  if (job.state === 'running') return `${written} of ${job.total ?? '…'} are written.`;
  if (job.state === 'stopped') return `Stopped: ${written} are written to ${folder}.`;
  const left =
    job.failed > 0 ? ` ${job.failed} are not: a file of that name is there, or the scan cannot be read.` : '';
  return job.state === 'failed'
    ? `It was broken off: ${written} are written to ${folder}.`
    : `${written} are written to ${folder}.${left}`;
}
