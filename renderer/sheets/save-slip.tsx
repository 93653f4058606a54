import { useState } from 'react';
import type { Output } from '../../shared/api/contract.ts';
import { isAppError } from '../../shared/api/errors.ts';
import type { Printed } from '../../shared/api/host-contract.ts';
import type { SheetSpec } from '../../shared/sheet/sheet-spec.ts';
import { describeError } from '../../shared/text/describe-error.ts';
import { useClients } from '../api/clients-context.tsx';
import { useCommand } from '../api/use-command.ts';
import { useCapabilities } from '../api/use-host.ts';
import { useNotices } from '../state/notices.tsx';
import { Button } from '../ui/button.tsx';
import { ChoiceRow } from '../ui/choice-row.tsx';
import { Notice } from '../ui/notice.tsx';
import { TextField } from '../ui/text-field.tsx';
import { FORMATS, suggestName, type SheetFormat } from './sheet-file.ts';

export interface SaveSlipProps {
  readonly rollIds: readonly number[];
  /** What is on the sheet, for the name of the file. */
  readonly words: string;
  readonly spec: SheetSpec;
  readonly pages: number;
  /** Why nothing can be saved yet. */
  readonly unavailable: string | undefined;
}

type Written = Output<'sheets.write'>;

/** What became of the sheet, told where it was asked for. */
type Outcome =
  | { readonly kind: 'saved'; readonly written: Written }
  | { readonly kind: 'download'; readonly written: Written; readonly address: string; readonly name: string }
  | { readonly kind: 'printed'; readonly written: Written; readonly printed: Printed };

/** Saves the sheet as a file, or prints it at 100 %. */
export function SaveSlip({ rollIds, words, spec, pages, unavailable }: SaveSlipProps) {
  const { host } = useClients();
  const notices = useNotices();
  const capabilities = useCapabilities();
  const write = useCommand('sheets.write', 'here');
  const [format, setFormat] = useState<SheetFormat>('pdf');
  const [ppi, setPpi] = useState<'300' | '600'>('300');
  const [typed, setTyped] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  const [outcome, setOutcome] = useState<Outcome | null>(null);
  const name = suggestName(words, format);
  const dialogs = capabilities?.dialogs ?? false;
  const path = typed ?? `${capabilities?.documentsFolder ?? ''}/${name}`;
  const oneFile = format === 'pdf' || pages === 1;

  async function writeTo(file: string, overwrite: boolean): Promise<Written | null> {
    setOutcome(null);
    const ended = await write.run({
      rollIds: [...rollIds],
      spec,
      file,
      overwrite,
      ppi: ppi === '600' ? 600 : 300,
    });
    return ended.ok ? ended.output : null;
  }
  /** One thing at a time; what the shell refuses is told in a notice. */
  async function during(work: () => Promise<void>): Promise<void> {
    setBusy(true);
    await work().catch(notices.fail);
    setBusy(false);
  }
  const save = (overwrite: boolean) =>
    during(async () => {
      const chosen = dialogs
        ? await host.call('host.chooseFileToWrite', {
            title: 'Save the contact sheet',
            suggestedName: name,
            kinds: [{ name: FORMATS[format].label, endings: [FORMATS[format].ending] }],
          })
        : { path };
      if (chosen.path === null) return;
      // The system's dialog has asked already whether a file may be replaced.
      const written = await writeTo(chosen.path, overwrite || dialogs);
      if (written) setOutcome({ kind: 'saved', written });
    });
  const download = () =>
    during(async () => {
      const place = await host.call('host.reserveFile', { name });
      const written = await writeTo(place.path, true);
      if (written) setOutcome({ kind: 'download', written, address: place.address, name });
    });
  const print = () =>
    during(async () => {
      const place = await host.call('host.reserveFile', { name: suggestName(words, 'pdf') });
      const written = await writeTo(place.path, true);
      if (!written) return;
      const printed = await host.call('host.printPdf', { fileId: place.fileId, printer: null });
      setOutcome({ kind: 'printed', written, printed });
    });

  const inTheWay = write.error !== null && isAppError(write.error, 'file_exists');
  const still = unavailable === undefined ? {} : { unavailable };
  return (
    <section className="save-slip" aria-label="Save and print">
      <ChoiceRow
        label="Save as"
        options={FORMAT_OPTIONS}
        value={format}
        onChange={(next) => {
          setFormat(next);
          setTyped(null);
          write.clear();
        }}
      />
      {format === 'pdf' ? null : (
        <ChoiceRow
          label="Pixels per inch"
          options={[
            { value: '300', label: '300' },
            { value: '600', label: '600' },
          ]}
          value={ppi}
          onChange={setPpi}
        />
      )}
      {capabilities === null || dialogs ? null : (
        <TextField
          label="File"
          labelPlace="above"
          value={path}
          onChange={(next) => {
            setTyped(next);
            write.clear();
          }}
          reading={oneFile ? undefined : 'One file for each page: -1, -2 and so on come before the ending.'}
        />
      )}
      <div className="save-buttons">
        <Button look="main" busy={busy} onPress={() => void save(false)} {...still}>
          {dialogs ? `Save ${FORMATS[format].label}…` : `Save ${FORMATS[format].label}`}
        </Button>
        {!dialogs && oneFile && unavailable === undefined ? (
          <Button busy={busy} onPress={() => void download()}>
            Download
          </Button>
        ) : null}
        {unavailable === undefined ? (
          <Button busy={busy} onPress={() => void print()}>
            Print
          </Button>
        ) : null}
      </div>
      {write.error ? (
        <Notice
          kind="failed"
          {...describeError(write.error)}
          {...(inTheWay ? { actions: <Button onPress={() => void save(true)}>Replace it</Button> } : {})}
          onDismiss={write.clear}
        />
      ) : null}
      {outcome ? <Told outcome={outcome} /> : null}
      <p className="save-note">
        Printed at 100 %, paper and screen agree within 0.2 mm. The ruler on the sheet is there to check it.
      </p>
    </section>
  );
}

const FORMAT_OPTIONS = [
  { value: 'pdf', label: FORMATS.pdf.label },
  { value: 'png', label: FORMATS.png.label },
  { value: 'tiff', label: FORMATS.tiff.label },
] as const;

function Told({ outcome }: { readonly outcome: Outcome }) {
  const { unreadable } = outcome.written;
  const lost =
    unreadable.length === 0
      ? null
      : `${unreadable.length === 1 ? 'One picture' : `${unreadable.length} pictures`} could not be read; words stand in its place.`;
  return (
    <div className="save-told" role="status">
      {outcome.kind === 'saved' ? <p>Saved: {outcome.written.files.join(', ')}</p> : null}
      {outcome.kind === 'download' ? (
        <p>
          The sheet is made.{' '}
          <a href={outcome.address} download={outcome.name}>
            Take it: {outcome.name}
          </a>
        </p>
      ) : null}
      {outcome.kind === 'printed' ? <PrintedWords printed={outcome.printed} /> : null}
      {lost === null ? null : <p className="save-lost">{lost}</p>}
    </div>
  );
}

function PrintedWords({ printed }: { readonly printed: Printed }) {
  if (printed.how === 'queue') {
    return (
      <p>
        Sent to {printed.printer ?? 'the usual printer'} with scaling off, as job {printed.job}.
      </p>
    );
  }
  if (printed.how === 'viewer') {
    return (
      <p>Opened in the system’s viewer. Print it from there at 100 %, without fitting it to the page.</p>
    );
  }
  return (
    <p>
      <a href={printed.address} target="_blank" rel="noreferrer">
        Open the PDF
      </a>{' '}
      and print it from there at 100 %, without fitting it to the page.
    </p>
  );
}
