import { useIsMutating } from '@tanstack/react-query';
import { useState, type Ref } from 'react';
import { useArchive } from '../api/use-query.ts';
import { useUndo } from '../api/use-undo.ts';
import { RouteLink, useRoute, useViewState } from '../state/view-state.tsx';
import { Button } from '../ui/button.tsx';
import { Keys } from '../ui/keys.tsx';
import { VIEWS } from '../views.ts';
import { Mark } from './mark.tsx';
import './top-line.css';

export interface TopLineProps {
  readonly findField: Ref<HTMLInputElement>;
}

/** The line above every view: the places, the find field, what can be undone, and whether all is saved. */
export function TopLine({ findField }: TopLineProps) {
  const route = useRoute();
  const hasFind = VIEWS.some((view) => view.name === 'find');
  return (
    <header className="top-line">
      <Mark />
      <span className="top-name">Edgeprint</span>
      <nav aria-label="Places" className="top-places">
        <ul>
          {VIEWS.filter((view) => view.place).map((view) => (
            <li key={view.name}>
              <RouteLink
                to={{ view: view.name }}
                className="top-place"
                aria-current={route.view === view.name ? 'page' : undefined}
              >
                {view.title}
              </RouteLink>
            </li>
          ))}
        </ul>
      </nav>
      {hasFind && route.view !== 'find' ? <FindField fieldRef={findField} /> : null}
      <UndoButton />
      <SavingState />
    </header>
  );
}

function FindField({ fieldRef }: { fieldRef: Ref<HTMLInputElement> }) {
  const viewState = useViewState();
  const [words, setWords] = useState('');
  return (
    <form
      role="search"
      className="top-find"
      onSubmit={(event) => {
        event.preventDefault();
        viewState.go({ view: 'find', params: { words } });
      }}
    >
      <input
        ref={fieldRef}
        type="text"
        aria-label="Find"
        placeholder="Find by words, fields or a picture"
        value={words}
        onChange={(event) => setWords(event.currentTarget.value)}
      />
      <Keys keys="Mod F" />
    </form>
  );
}

function UndoButton() {
  const undo = useUndo();
  if (undo.undoes === null) return null;
  return (
    <Button look="quiet" onPress={() => void undo.undo()} name={`Undo: ${undo.undoes}`}>
      Undo
    </Button>
  );
}

/** How many rolls there are, and whether everything that was changed is on the disk. */
function SavingState() {
  const { data } = useArchive('archive.state', {});
  const writing = useIsMutating() > 0;
  if (!data) return null;
  const rolls = data.rolls === 1 ? '1 roll' : `${data.rolls} rolls`;
  return (
    <p className="top-state numbers" role="status">
      {writing ? `${rolls}, saving` : `${rolls}, all saved`}
    </p>
  );
}
