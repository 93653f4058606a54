import { useQueryClient } from '@tanstack/react-query';
import { useCallback, useEffect, useRef, useState } from 'react';
import type { MenuCommand } from '../shared/api/host-contract.ts';
import { describeError } from '../shared/text/describe-error.ts';
import { useClients } from './api/clients-context.tsx';
import { useCommand } from './api/use-command.ts';
import { useArchive } from './api/use-query.ts';
import { useUndo } from './api/use-undo.ts';
import { useAppearance } from './state/appearance.tsx';
import type { EngineState } from './state/engine-state.ts';
import { isWriting } from './state/is-writing.ts';
import { useNoticeList, useNotices } from './state/notices.tsx';
import { useStore, type Store } from './state/store.ts';
import { useRoute } from './state/view-state.tsx';
import { BackUpDialog } from './start/back-up-dialog.tsx';
import { EngineTrouble } from './start/engine-trouble.tsx';
import { FirstStart } from './start/first-start.tsx';
import { JobLine } from './top/job-line.tsx';
import { TopLine } from './top/top-line.tsx';
import { Button } from './ui/button.tsx';
import { FullPanel } from './ui/full-panel.tsx';
import { Notice } from './ui/notice.tsx';
import { VIEWS } from './views.ts';
import './app.css';

export interface AppProps {
  readonly engineState: Pick<Store<EngineState>, 'get' | 'subscribe'>;
}

/** The window: a state of the whole, or the top line with the view that the address names. */
export function App({ engineState }: AppProps) {
  const state = useStore(engineState);
  const { data, error } = useArchive('archive.state', {}, { when: state.kind === 'running' });
  useAppearanceOfShell();
  if (state.kind !== 'running') return <EngineTrouble state={state} />;
  if (error) return <Unreachable error={error} />;
  if (data === undefined) return <div aria-busy="true" />;
  if (data === null) return <FirstStart />;
  return <Archive name={data.name} />;
}

function Archive({ name }: { name: string }) {
  const route = useRoute();
  const findField = useRef<HTMLInputElement>(null);
  const view = VIEWS.find((known) => known.name === route.view) ?? VIEWS[0];
  const [backingUp, setBackingUp] = useState(false);
  useCommands(findField, () => setBackingUp(true));
  useEffect(() => {
    document.title = view ? `${view.title}, ${name}` : name;
  }, [view, name]);
  const View = view?.component;
  return (
    <div className="app">
      <TopLine findField={findField} />
      <JobLine />
      <NoticeStack />
      <main className="app-view" key={view?.name}>
        {View ? <View route={route} /> : <h1>{name}</h1>}
      </main>
      {backingUp ? <BackUpDialog archive={name} onClose={() => setBackingUp(false)} /> : null}
    </div>
  );
}

/** Notices stay above the view, pushing it down, until each is put away. */
function NoticeStack() {
  const notices = useNotices();
  const list = useNoticeList();
  if (list.length === 0) return null;
  return (
    <section className="app-notices" aria-label="Notices">
      {list.map(({ key, kind, title, detail, advice }) => (
        <Notice
          key={key}
          kind={kind}
          title={title}
          {...(detail === '' ? {} : { detail })}
          {...(advice === '' ? {} : { advice })}
          onDismiss={() => notices.putAway(key)}
        />
      ))}
    </section>
  );
}

function Unreachable({ error }: { error: Error }) {
  const cache = useQueryClient();
  return (
    <FullPanel
      kind="trouble"
      {...describeError(error)}
      actions={<Button onPress={() => void cache.invalidateQueries()}>Try again</Button>}
    />
  );
}

/** Tells the shell which ground the window has, so that its own frame goes with it. */
function useAppearanceOfShell(): void {
  const { host } = useClients();
  const notices = useNotices();
  const [appearance] = useAppearance();
  useEffect(() => {
    host.call('host.setAppearance', { appearance }).catch(notices.fail);
  }, [host, notices, appearance]);
}

/** Shortcuts and menu commands that hold in every view. */
function useCommands(findField: { readonly current: HTMLInputElement | null }, backUp: () => void): void {
  const { host } = useClients();
  const { undo, redo } = useUndo();
  const close = useCommand('archive.close');
  const [, setAppearance] = useAppearance();

  const run = useCallback(
    (command: MenuCommand) => {
      if (command === 'undo') void undo();
      else if (command === 'redo') void redo();
      else if (command === 'find') findField.current?.focus();
      else if (command === 'dark' || command === 'light' || command === 'red') setAppearance(command);
      else if (command === 'back up archive') backUp();
      else if (command === 'new archive' || command === 'open archive' || command === 'close archive') {
        void close.run({});
      }
    },
    [undo, redo, close, findField, backUp, setAppearance],
  );
  const latest = useRef(run);
  useEffect(() => {
    latest.current = run;
  }, [run]);

  useEffect(
    () =>
      host.onEvent((event) => {
        if (event.type === 'menu') latest.current(event.command);
      }),
    [host],
  );
  useEffect(() => {
    function press(event: KeyboardEvent): void {
      const command = commandOf(event);
      if (command === null || (command !== 'find' && isWriting(event.target))) return;
      event.preventDefault();
      latest.current(command);
    }
    window.addEventListener('keydown', press);
    return () => window.removeEventListener('keydown', press);
  }, []);
}

function commandOf(event: KeyboardEvent): MenuCommand | null {
  if (!(event.ctrlKey || event.metaKey) || event.altKey) return null;
  const key = event.key.toLowerCase();
  if (key === 'z') return event.shiftKey ? 'redo' : 'undo';
  if (key === 'y' && !event.shiftKey) return 'redo';
  return key === 'f' && !event.shiftKey ? 'find' : null;
}
