import type { ProcessEntry } from '../../../shared/api/methods/bath-methods.ts';
import { useArchive } from '../../api/use-query.ts';
import { RouteLink } from '../../state/view-state.tsx';
import { DevelopmentPlaces } from '../places.tsx';
import { ProcessEditor } from './process-editor.tsx';
import { ProcessFacts } from './process-facts.tsx';
import './processes.css';

/** Every process, and one of them to look at, copy, edit or remove (`#/development/processes/own-3?edit=1`). */
export function ProcessesView({
  shown,
  editing,
}: {
  /** The key of the process that is looked at. */
  readonly shown: string | undefined;
  readonly editing: boolean;
}) {
  const { data: processes } = useArchive('processes.list', {});
  if (!processes) return <div className="processes" aria-busy="true" />;
  const entry =
    processes.find(({ key }) => key === shown) ?? (shown === undefined ? processes[0] : undefined);
  const own = processes.filter(({ id }) => id !== null);
  const shipped = processes.filter(({ id }) => id === null);
  return (
    <div className="processes">
      <DevelopmentPlaces at="processes" />
      <nav className="processes-list" aria-label="Processes">
        <ProcessLinks title="Yours" entries={own} shown={entry?.key} />
        {own.length === 0 ? (
          <p className="plan-words">None yet: copy one and enter your maker’s numbers.</p>
        ) : null}
        <ProcessLinks title="Shipped" entries={shipped} shown={entry?.key} />
      </nav>
      {entry === undefined ? (
        <p role="alert">This process is not there. It may have been removed.</p>
      ) : editing ? (
        <ProcessEditor key={entry.key} entry={entry} />
      ) : (
        <ProcessFacts key={entry.key} entry={entry} />
      )}
    </div>
  );
}

function ProcessLinks({
  title,
  entries,
  shown,
}: {
  readonly title: string;
  readonly entries: readonly ProcessEntry[];
  readonly shown: string | undefined;
}) {
  if (entries.length === 0) return <h2>{title}</h2>;
  return (
    <>
      <h2>{title}</h2>
      {entries.map(({ key, name }) => (
        <RouteLink
          key={key}
          to={{ view: 'development', ids: ['processes', key] }}
          aria-current={key === shown ? 'page' : undefined}
        >
          {name}
        </RouteLink>
      ))}
    </>
  );
}
