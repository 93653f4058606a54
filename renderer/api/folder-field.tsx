import { useNotices } from '../state/notices.tsx';
import { Button } from '../ui/button.tsx';
import { TextField } from '../ui/text-field.tsx';
import { useClients } from './clients-context.tsx';
import { useCapabilities } from './use-host.ts';
import './folder-field.css';

export interface FolderFieldProps {
  readonly label: string;
  /** What the dialog is for: “The folder for the archive”. */
  readonly title: string;
  readonly folder: string;
  readonly onFolder: (folder: string) => void;
  readonly error?: string | undefined;
}

/** The path of a folder, typed, or chosen in the system's dialog where the shell has one. */
export function FolderField({ label, title, folder, onFolder, error }: FolderFieldProps) {
  const { host } = useClients();
  const notices = useNotices();
  const dialogs = useCapabilities()?.dialogs ?? false;

  function choose(): void {
    host
      .call('host.chooseFolder', { title, startIn: folder === '' ? null : folder })
      .then(({ path }) => {
        if (path !== null) onFolder(path);
      })
      .catch(notices.fail);
  }

  return (
    <div className="folder-field">
      <TextField label={label} labelPlace="above" value={folder} onChange={onFolder} error={error} />
      {dialogs ? <Button onPress={choose}>Choose…</Button> : null}
    </div>
  );
}
