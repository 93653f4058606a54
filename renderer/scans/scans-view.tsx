import { useState } from 'react';
import { describeError } from '../../shared/text/describe-error.ts';
import { FolderField } from '../api/folder-field.tsx';
import { RollField } from '../api/roll-field.tsx';
import { useCommand } from '../api/use-command.ts';
import { useJobs } from '../api/use-jobs.ts';
import { useArchive } from '../api/use-query.ts';
import type { Route } from '../state/route.ts';
import { RouteLink, useViewState } from '../state/view-state.tsx';
import { Button } from '../ui/button.tsx';
import { EmptyState } from '../ui/empty-state.tsx';
import { Notice } from '../ui/notice.tsx';
import { ProposalDesk } from './proposal-desk.tsx';
import { ReadingJob } from './reading-job.tsx';
import './scans-view.css';

/** Brings scans in: a folder is read, what it shows is proposed frame by frame, put right, and recorded. */
export function ScansView({ route }: { readonly route: Route }) {
  const viewState = useViewState();
  const rollId = Number(route.params['roll'] ?? '') || null;
  const rows = useArchive('rolls.rows', { ids: rollId === null ? [] : [rollId] }, { when: rollId !== null });
  const roll = rollId === null ? null : (rows.data?.[0] ?? null);
  const read = useCommand('scans.read', 'here');
  const [folder, setFolder] = useState(route.params['folder'] ?? '');
  const readFolder = route.params['folder'] ?? '';
  const jobId = Number(route.params['job'] ?? '');
  const job = useJobs().find(({ id }) => id === jobId) ?? null;
  const settled = job !== null && (job.state === 'done' || job.state === 'failed');

  async function readNow(path: string): Promise<void> {
    if (path.trim() === '') return;
    const ended = await read.run({ folder: path.trim() });
    if (ended.ok) viewState.adjust({ folder: path.trim(), job: String(ended.output.id) });
  }

  return (
    <div className="scans">
      <h1 className="scans-title">
        Scans in
        {roll === null ? '' : ` for roll ${roll.number}`}
      </h1>
      <form
        className="scans-head"
        onSubmit={(event) => {
          event.preventDefault();
          void readNow(folder);
        }}
      >
        <FolderField
          label="Folder with the scans"
          title="The folder with the scans"
          folder={folder}
          onFolder={(next) => {
            setFolder(next);
            read.clear();
          }}
          error={
            read.error === null
              ? undefined
              : describeError(read.error).detail || describeError(read.error).title
          }
        />
        <RollField
          label="Roll they show"
          roll={roll}
          onRoll={({ id }) => viewState.adjust({ roll: String(id) })}
        />
        <div className="scans-read">
          <Button
            look={settled && folder === readFolder ? 'plain' : 'main'}
            submit
            busy={read.pending || job?.state === 'running'}
            onPress={() => void readNow(folder)}
          >
            {settled && folder === readFolder ? 'Read it again' : 'Read the folder'}
          </Button>
        </div>
      </form>
      {job !== null && !settled ? <ReadingJob job={job} /> : null}
      {settled && roll === null ? (
        <Notice
          kind="said"
          title="The folder is read. Which roll do the scans show?"
          detail={
            <>
              Choose it above, or <RouteLink to={{ view: 'rolls' }}>write down a new roll</RouteLink> first.
            </>
          }
        />
      ) : null}
      {settled && roll !== null ? (
        <ProposalDesk
          key={`${roll.id} ${readFolder}`}
          folder={readFolder}
          roll={roll}
          onReadAgain={() => void readNow(readFolder)}
        />
      ) : null}
      {job === null && route.params['job'] === undefined ? (
        <EmptyState says="Choose the folder that a scanner or a lab filled. It is read where it lies: the scans stay there, and nothing is recorded before you have seen which scan becomes which frame." />
      ) : null}
    </div>
  );
}
