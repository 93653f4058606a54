import { useEffect, useRef, useState, type KeyboardEvent } from 'react';
import { rollState, type RollState } from '../../shared/api/values.ts';
import { describeDate } from '../../shared/text/calendar-words.ts';
import { describeError } from '../../shared/text/describe-error.ts';
import { useArchive } from '../api/use-query.ts';
import { isWriting } from '../state/is-writing.ts';
import type { Route } from '../state/route.ts';
import { useViewState } from '../state/view-state.tsx';
import { Button } from '../ui/button.tsx';
import { EmptyState } from '../ui/empty-state.tsx';
import { GridList } from '../ui/grid-list.tsx';
import { Keys } from '../ui/keys.tsx';
import { Notice } from '../ui/notice.tsx';
import { Select } from '../ui/select.tsx';
import { TextField } from '../ui/text-field.tsx';
import { NewRoll } from './new-roll.tsx';
import { readSort, ROLL_COLUMNS } from './roll-columns.tsx';
import { useRollRows } from './use-roll-rows.ts';
import './rolls-view.css';

const STATES: readonly RollState[] = rollState.options;
const NOTHING: readonly number[] = [];

/** Every roll of the archive, sorted and filtered; the way to each, and to a new one. */
export function RollsView({ route }: { readonly route: Route }) {
  const viewState = useViewState();
  const [adding, setAdding] = useState(false);
  const [active, setActive] = useState(0);
  const filterField = useRef<HTMLInputElement>(null);
  const words = route.params['words'] ?? '';
  const state = STATES.find((known) => known === route.params['state']) ?? null;
  const outingId = Number(route.params['outing'] ?? 0) || 0;
  const outing = useArchive('outings.get', { id: outingId }, { when: outingId > 0 }).data;
  const sort = readSort(route.params['sort']) ?? 'number';
  const descending = (route.params['down'] ?? (route.params['sort'] === undefined ? '1' : '0')) === '1';
  const { data, error } = useArchive(
    'rolls.order',
    {
      sort,
      descending,
      filter: {
        ...(outingId > 0 ? { outingId } : {}),
        ...(words.trim() === '' ? {} : { words }),
        ...(state === null ? {} : { states: [state] }),
      },
    },
    { keepFormer: true },
  );
  const archive = useArchive('archive.state', {}).data;
  const ids = data?.ids ?? NOTHING;
  const { rowAt, onVisible } = useRollRows(ids);
  const filtered = words.trim() !== '' || state !== null || outingId > 0;
  useNewKey(() => setAdding(true));

  function sortBy(column: string): void {
    const next = readSort(column);
    if (next === null) return;
    viewState.adjust({ sort: next, down: next === sort && !descending ? '1' : '0' });
    setActive(0);
  }
  function open(index: number): void {
    const id = ids[index];
    if (id !== undefined) viewState.go({ view: 'rolls', ids: [id] });
  }
  function pressInFilter(event: KeyboardEvent): void {
    if (event.key !== 'Escape' || words === '') return;
    event.preventDefault();
    viewState.adjust({ words: null });
  }

  return (
    <div className="rolls-view">
      <header className="rolls-head">
        <h1>Rolls</h1>
        <p className="rolls-count numbers" role="status">
          {data === undefined ? '' : countWords(ids.length, filtered, archive?.rolls ?? null)}
        </p>
        <div className="rolls-filter">
          <TextField
            label="Filter"
            labelPlace="unseen"
            placeholder="Number, title, stock, camera, place"
            inputMode="search"
            value={words}
            fieldRef={filterField}
            onChange={(text) => viewState.adjust({ words: text === '' ? null : text })}
            onKeyDown={pressInFilter}
          />
        </div>
        <Select
          label="State"
          look="sentence"
          value={state ?? 'any'}
          options={[
            { value: 'any', label: 'in any state' },
            ...STATES.map((value) => ({ value, label: value })),
          ]}
          onChange={(value) => viewState.adjust({ state: value === 'any' ? null : value })}
        />
        {outing ? (
          <p className="rolls-outing">
            of the outing {outing.title}
            {outing.date === null ? '' : `, ${describeDate(outing.date)}`}{' '}
            <Button look="quiet" onPress={() => viewState.adjust({ outing: null })}>
              Show all outings
            </Button>
          </p>
        ) : null}
        <div className="rolls-new">
          <Button look="main" keys="N" onPress={() => setAdding(true)}>
            New roll
          </Button>
        </div>
      </header>
      {error ? <Notice kind="failed" {...describeError(error)} /> : null}
      <div className="rolls-list">
        {data === undefined ? (
          <div aria-busy="true" />
        ) : (
          <GridList
            label="Rolls"
            columns={ROLL_COLUMNS}
            count={ids.length}
            rowAt={rowAt}
            rowKey={(index) => ids[index] ?? index}
            active={active}
            onActive={setActive}
            onOpen={open}
            sort={{ column: sort, descending }}
            onSort={sortBy}
            onVisible={onVisible}
            empty={
              <NoRolls
                filtered={filtered}
                onNew={() => setAdding(true)}
                onAll={() => viewState.adjust({ words: null, state: null, outing: null })}
              />
            }
          />
        )}
      </div>
      <p className="rolls-foot">
        <Keys keys="Enter" /> opens a roll, <Keys keys="N" /> begins a new one; a heading sorts.
      </p>
      {adding ? (
        <NewRoll
          onClose={() => setAdding(false)}
          onAdded={(id) => viewState.go({ view: 'rolls', ids: [id] })}
        />
      ) : null}
    </div>
  );
}

function countWords(shown: number, filtered: boolean, all: number | null): string {
  const rolls = `${shown} ${shown === 1 ? 'roll' : 'rolls'}`;
  return filtered && all !== null ? `${shown} of ${all} ${all === 1 ? 'roll' : 'rolls'}` : rolls;
}

interface NoRollsProps {
  readonly filtered: boolean;
  readonly onNew: () => void;
  readonly onAll: () => void;
}

function NoRolls({ filtered, onNew, onAll }: NoRollsProps) {
  return filtered ? (
    <EmptyState
      says="No roll has these words and this state."
      action={<Button onPress={onAll}>Show every roll</Button>}
    />
  ) : (
    <EmptyState
      says="Rolls lie here, from the day they are bought. Each has a number of its own for life."
      action={
        <Button look="main" onPress={onNew}>
          Write down the first roll
        </Button>
      }
    />
  );
}

/** N begins a new roll, wherever in the view the keyboard is, except in text and in a dialog. */
function useNewKey(begin: () => void): void {
  const latest = useRef(begin);
  useEffect(() => {
    latest.current = begin;
  }, [begin]);
  useEffect(() => {
    function press(event: globalThis.KeyboardEvent): void {
      if (event.key.toLowerCase() !== 'n' || event.ctrlKey || event.metaKey || event.altKey) return;
      if (isWriting(event.target) || document.querySelector('dialog[open]') !== null) return;
      event.preventDefault();
      latest.current();
    }
    window.addEventListener('keydown', press);
    return () => window.removeEventListener('keydown', press);
  }, []);
}
