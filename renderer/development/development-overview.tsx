import { useState } from 'react';
import type { BathEntry } from '../../shared/api/methods/bath-methods.ts';
import type { Development } from '../../shared/api/methods/development-methods.ts';
import { BATH_NAMES } from '../../shared/text/describe-development.ts';
import { formatTemperature, PROCESS_NAMES } from '../../shared/text/format.ts';
import { formatDuration } from '../../shared/units/duration.ts';
import { useArchive } from '../api/use-query.ts';
import { useViewState } from '../state/view-state.tsx';
import { Button } from '../ui/button.tsx';
import { EmptyState } from '../ui/empty-state.tsx';
import { GridList, type GridColumn } from '../ui/grid-list.tsx';
import { BathDialog } from './bath-dialog.tsx';
import { DevelopmentPlaces } from './places.tsx';
import { MixBathDialog } from './mix-bath-dialog.tsx';
import { TankDialog } from './tank-dialog.tsx';

const COLUMNS: readonly GridColumn<Development>[] = [
  {
    id: 'date',
    title: 'Day',
    width: '6.5rem',
    cell: (each) => (
      <span className="numbers">{each.date?.edtf ?? (each.state === 'running' ? 'now' : '–')}</span>
    ),
  },
  {
    id: 'rolls',
    title: 'Rolls',
    width: 'minmax(8rem, 2fr)',
    cell: (each) => <span className="numbers">{each.rolls.map((roll) => roll.number).join(', ')}</span>,
  },
  {
    id: 'process',
    title: 'Process',
    width: 'minmax(7rem, 1fr)',
    cell: (each) => each.processName ?? PROCESS_NAMES[each.process],
  },
  {
    id: 'time',
    title: 'Developer',
    width: '8.5rem',
    cell: (each) => (
      <span className="numbers">
        {[
          each.developerSeconds === null ? null : formatDuration(each.developerSeconds),
          each.developerTempC === null ? null : formatTemperature(each.developerTempC),
        ]
          .filter(Boolean)
          .join(' at ')}
      </span>
    ),
  },
  {
    id: 'state',
    title: 'State',
    width: 'minmax(8rem, 1fr)',
    cell: (each) => (
      <>
        {each.state}
        {each.doubts.length === 0
          ? ''
          : `, to be doubted: ${each.doubts.map((doubt) => doubt.bath.name).join(', ')}`}
      </>
    ),
  },
];

type Slip =
  { readonly kind: 'mix' } | { readonly kind: 'tank' } | { readonly kind: 'bath'; readonly id: number };

/** Every development and every bath, and the way to the next run. */
export function DevelopmentOverview() {
  const viewState = useViewState();
  const { data: developments } = useArchive('developments.list', {});
  const { data: baths } = useArchive('baths.list', {});
  const [active, setActive] = useState(0);
  const [slip, setSlip] = useState<Slip | null>(null);
  if (!developments || !baths) return <div className="development" aria-busy="true" />;
  const selected = developments[active];
  const running = developments.filter((each) => each.state === 'running');
  return (
    <div className="development">
      <DevelopmentPlaces at="log" />
      <section className="development-list" aria-labelledby="developments">
        <header className="development-head">
          <h1 id="developments">Developments</h1>
          <div className="development-row">
            {selected === undefined ? null : (
              <Button onPress={() => viewState.go({ view: 'development', ids: [selected.id] })}>
                Open the selected one
              </Button>
            )}
            <Button look="main" onPress={() => viewState.go({ view: 'development', ids: ['plan'] })}>
              Plan a development
            </Button>
          </div>
        </header>
        {running.map((each) => (
          <div key={each.id} className="development-running" role="status">
            <p>
              A run is open:{' '}
              <span className="numbers">{each.rolls.map((roll) => roll.number).join(', ')}</span>,{' '}
              {each.processName ?? PROCESS_NAMES[each.process]}.
            </p>
            <Button
              look="main"
              onPress={() => viewState.go({ view: 'development', ids: [each.id, 'run'] })}
              name={`Go on with development ${each.id}`}
            >
              Go on with it
            </Button>
          </div>
        ))}
        {developments.length === 0 ? (
          <EmptyState says="What was developed, when, how and in which baths is listed here. Plan the first one, and run it beside the tank." />
        ) : (
          <GridList
            label="Developments"
            columns={COLUMNS}
            count={developments.length}
            rowAt={(at) => developments[at]}
            rowKey={(at) => developments[at]?.id ?? at}
            active={active}
            onActive={setActive}
            onOpen={(at) => {
              const opened = developments[at];
              if (opened) viewState.go({ view: 'development', ids: [opened.id] });
            }}
          />
        )}
      </section>
      <section className="development-baths" aria-labelledby="baths">
        <header className="development-head">
          <h1 id="baths">Baths</h1>
          <div className="development-row">
            <Button onPress={() => setSlip({ kind: 'tank' })}>Add a tank</Button>
            <Button onPress={() => setSlip({ kind: 'mix' })}>Mix a bath</Button>
          </div>
        </header>
        {baths.length === 0 ? (
          <EmptyState says="Baths that are used more than once stand here, with what they have done and what is left of them." />
        ) : (
          <ul>
            {baths.map((bath) => (
              <BathLine key={bath.id} bath={bath} onOpen={() => setSlip({ kind: 'bath', id: bath.id })} />
            ))}
          </ul>
        )}
      </section>
      {slip?.kind === 'mix' ? <MixBathDialog onClose={() => setSlip(null)} /> : null}
      {slip?.kind === 'tank' ? <TankDialog onClose={() => setSlip(null)} /> : null}
      {slip?.kind === 'bath' ? <BathDialog id={slip.id} onClose={() => setSlip(null)} /> : null}
    </div>
  );
}

function BathLine({ bath, onOpen }: { readonly bath: BathEntry; readonly onOpen: () => void }) {
  const share =
    bath.capacityCm2 === null ? null : Math.min(1, Math.max(0, bath.areaDoneCm2 / bath.capacityCm2));
  return (
    <li className={bath.condition === 'in use' ? 'bath-line' : 'bath-line bath-ended'}>
      <div className="bath-line-head">
        <h2>{bath.name}</h2>
        <span>{BATH_NAMES[bath.kind]}</span>
        <Button look="quiet" onPress={onOpen} name={`Open ${bath.name}`}>
          Open
        </Button>
      </div>
      {share === null ? null : (
        <div className="bath-bar" aria-hidden="true">
          <div style={{ width: `${share * 100}%` }} />
        </div>
      )}
      <p className="numbers">{bath.words}</p>
    </li>
  );
}
