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
  const sample = useCommand('archive.makeSample', 'here');
  const [typed, setTyped] = useState<string | null>(null);
  const documents = capabilities?.documentsFolder ?? '';
  const folder = typed ?? (documents === '' ? '' : `${documents}/Film archive`);
  const sampleFolder = `${documents === '' ? '' : `${documents}/`}Edgeprint sample`;
  const sampleIsThere = isAppError(sample.error, 'archive_exists');
  const error = open.error ?? create.error ?? (sampleIsThere ? null : sample.error);
  const busy = open.pending || create.pending || sample.pending;

  function openFolder(path: string): void {
    create.clear();
    sample.clear();
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
      <div className="full-panel-actions">
        {sampleIsThere ? (
          <Button busy={busy} onPress={() => openFolder(`${sampleFolder}/archive`)}>
            Open the sample archive made before
          </Button>
        ) : (
          <Button
            busy={busy}
            onPress={() => {
              open.clear();
              create.clear();
              void sample.run({ folder: sampleFolder });
            }}
          >
            Try the sample archive
          </Button>
        )}
        <span className="recent-folder" role="status">
          {sample.pending
            ? 'Three invented rolls are being drawn, read and filed. This takes a moment.'
            : `Three invented rolls with scans, binders and sheets, made in ${sampleFolder}`}
        </span>
      </div>
      <FolderField label="Folder" title="The folder of the archive" folder={folder} onFolder={setTyped} />
      <div className="full-panel-actions">
        <Button
          look="main"
          busy={busy}
          onPress={() => {
            open.clear();
            sample.clear();
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
