import { useState } from 'react';
import { describeError } from '../../shared/text/describe-error.ts';
import { useCommand } from '../api/use-command.ts';
import { useArchive } from '../api/use-query.ts';
import { useViewState } from '../state/view-state.tsx';
import { Button } from '../ui/button.tsx';
import { Dialog } from '../ui/dialog.tsx';
import { Menu } from '../ui/menu.tsx';
import { TextField } from '../ui/text-field.tsx';
import type { ShownAs } from './use-hits.ts';

export interface SavedSearchesProps {
  readonly query: string;
  readonly shownAs: ShownAs;
  /** Whether the search is understood, so that it can be kept. */
  readonly sound: boolean;
  readonly onQuery: (query: string) => void;
}

/** Searches that are kept by name: to ask again, to keep this one, to forget one. */
export function SavedSearches({ query, shownAs, sound, onQuery }: SavedSearchesProps) {
  const viewState = useViewState();
  const saved = useArchive('searches.list', {});
  const remove = useCommand('searches.remove');
  const [keeping, setKeeping] = useState(false);
  const list = saved.data ?? [];
  const same = list.find((search) => search.query === query && search.shownAs === shownAs);
  return (
    <>
      {list.length > 0 ? (
        <Menu
          label="Kept searches"
          items={list.map((search) => ({
            label: search.name,
            onPress: () => {
              onQuery(search.query);
              viewState.adjust({ as: search.shownAs === 'frames' ? null : search.shownAs });
            },
          }))}
        />
      ) : null}
      {same ? (
        <Button look="quiet" busy={remove.pending} onPress={() => void remove.run({ id: same.id })}>
          Forget “{same.name}”
        </Button>
      ) : null}
      {!same && sound && query.trim() !== '' ? (
        <Button look="quiet" onPress={() => setKeeping(true)}>
          Keep this search…
        </Button>
      ) : null}
      {keeping ? <KeepDialog query={query} shownAs={shownAs} onClose={() => setKeeping(false)} /> : null}
    </>
  );
}

interface KeepDialogProps {
  readonly query: string;
  readonly shownAs: ShownAs;
  readonly onClose: () => void;
}

function KeepDialog({ query, shownAs, onClose }: KeepDialogProps) {
  const add = useCommand('searches.add', 'here');
  const [name, setName] = useState(query);
  async function keep(): Promise<void> {
    if (name.trim() === '') return;
    const ended = await add.run({ name, query, shownAs });
    if (ended.ok) onClose();
  }
  return (
    <Dialog
      title="Keep this search"
      onClose={onClose}
      onSubmit={() => void keep()}
      actions={
        <>
          <Button look="main" submit busy={add.pending} onPress={() => void keep()}>
            Keep it
          </Button>
          <Button onPress={onClose}>Leave it</Button>
        </>
      }
    >
      <TextField
        label="Name"
        labelPlace="above"
        value={name}
        onChange={setName}
        autoFocus
        error={add.error ? describeError(add.error).detail || describeError(add.error).title : undefined}
      />
    </Dialog>
  );
}
