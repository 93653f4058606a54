import { useState } from 'react';
import { describeError } from '../../shared/text/describe-error.ts';
import { useClients } from '../api/clients-context.tsx';
import { useCommand } from '../api/use-command.ts';
import { useCapabilities } from '../api/use-host.ts';
import { useNotices } from '../state/notices.tsx';
import { Button } from '../ui/button.tsx';
import { Dialog } from '../ui/dialog.tsx';
import { TextField } from '../ui/text-field.tsx';

export interface BackUpDialogProps {
  readonly archive: string;
  readonly onClose: () => void;
}

/** Asks where a copy of the archive is to go, and writes it. */
export function BackUpDialog({ archive, onClose }: BackUpDialogProps) {
  const { host } = useClients();
  const capabilities = useCapabilities();
  const notices = useNotices();
  const backUp = useCommand('archive.backUp', 'here');
  const suggestedName = `${archive} backup.sqlite`;
  const [typed, setTyped] = useState<string | null>(null);
  const file = typed ?? `${capabilities?.documentsFolder ?? ''}/${suggestedName}`;
  const failure = backUp.error ? describeError(backUp.error) : null;

  async function write(): Promise<void> {
    const ended = await backUp.run({ file });
    if (!ended.ok) return;
    notices.say('The archive was copied', file);
    onClose();
  }
  function choose(): void {
    host
      .call('host.chooseFileToWrite', {
        title: 'Where the copy goes',
        suggestedName,
        kinds: [{ name: 'Archive', endings: ['sqlite'] }],
      })
      .then(({ path }) => {
        if (path !== null) setTyped(path);
      })
      .catch(notices.fail);
  }

  return (
    <Dialog
      title="Back up the archive"
      onClose={onClose}
      onSubmit={() => void write()}
      actions={
        <>
          <Button look="main" submit busy={backUp.pending} onPress={() => {}}>
            Write the copy
          </Button>
          {capabilities?.dialogs === true ? <Button onPress={choose}>Choose…</Button> : null}
          <Button look="quiet" onPress={onClose}>
            Leave
          </Button>
        </>
      }
    >
      <p>A copy of everything but the scans, taken while you go on working.</p>
      <TextField
        label="File"
        labelPlace="above"
        value={file}
        onChange={setTyped}
        error={failure === null ? undefined : `${failure.title}. ${failure.detail} ${failure.advice}`}
      />
    </Dialog>
  );
}
