import { useState } from 'react';
import { isAppError } from '../../shared/api/errors.ts';
import { describeError } from '../../shared/text/describe-error.ts';
import { FolderField } from '../api/folder-field.tsx';
import { useCommand } from '../api/use-command.ts';
import { useCapabilities, useRecentArchives } from '../api/use-host.ts';
import { Button } from '../ui/button.tsx';
import { FullPanel } from '../ui/full-panel.tsx';
import { Notice } from '../ui/notice.tsx';
import './first-start.css';

/** No archive is open: start one, open one, or go on with one of before. */
export function FirstStart() {
  const capabilities = useCapabilities();
  const recent = useRecentArchives();
  const create = useCommand('archive.create', 'here');
  const open = useCommand('archive.open', 'here');
  const [typed, setTyped] = useState<string | null>(null);
  const documents = capabilities?.documentsFolder ?? '';
  const folder = typed ?? (documents === '' ? '' : `${documents}/Film archive`);
  const error = open.error ?? create.error;
  const busy = open.pending || create.pending;

  function openFolder(path: string): void {
    create.clear();
    void open.run({ folder: path });
  }

  return (
    <FullPanel
      title={recent.list.length === 0 ? 'Where the film is kept' : 'Which archive?'}
      detail="An archive is one folder of yours. Scans stay where they are; nothing leaves this machine."
    >
      {error && !isAppError(error, 'cancelled') ? <Notice kind="failed" {...describeError(error)} /> : null}
      {recent.list.length === 0 ? null : (
        <ul className="recent" aria-label="Archives of before">
          {recent.list.map((archive) => (
            <li key={archive.folder} className="recent-row">
              <span className="recent-words">
                <span className="recent-name">{archive.name}</span>
                <span className="recent-folder">
                  {archive.present ? archive.folder : `${archive.folder} is not there at present`}
                </span>
              </span>
              <Button
                busy={busy}
                name={`Open ${archive.name}`}
                unavailable={archive.present ? undefined : 'connect its disk'}
                onPress={() => openFolder(archive.folder)}
              >
                Open
              </Button>
              <Button
                look="quiet"
                name={`Take ${archive.name} off the list`}
                onPress={() => void recent.forget(archive.folder)}
              >
                Take off the list
              </Button>
            </li>
          ))}
        </ul>
      )}
      <FolderField label="Folder" title="The folder of the archive" folder={folder} onFolder={setTyped} />
      <div className="full-panel-actions">
        <Button
          look="main"
          busy={busy}
          onPress={() => {
            open.clear();
            void create.run({ folder });
          }}
        >
          Start my own
        </Button>
        <Button busy={busy} onPress={() => openFolder(folder)}>
          Open the archive in this folder
        </Button>
      </div>
    </FullPanel>
  );
}
