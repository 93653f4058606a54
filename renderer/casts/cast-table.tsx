import { useState } from 'react';
import type { Output } from '../../shared/api/contract.ts';
import type { PlottedRoll } from '../../shared/api/methods/causes-methods.ts';
import { useViewState } from '../state/view-state.tsx';
import { GridList, type GridColumn } from '../ui/grid-list.tsx';
import type { Measure } from '../../shared/domain/colour/logged-roll.ts';
import { MEASURE_WORDS } from '../../shared/text/describe-trend.ts';
import { describeFactor, formatSigned, type CastFactor } from './cast-axes.ts';

type StockCast = Output<'colour.ofStock'>['rolls'][number];

interface CastRow {
  readonly roll: PlottedRoll;
  readonly cast: StockCast['cast'] | undefined;
}

export interface CastTableProps {
  readonly stock: string;
  readonly measure: Measure;
  readonly factor: CastFactor;
  readonly rolls: readonly PlottedRoll[];
  readonly casts: readonly StockCast[];
  readonly chosen: number | null;
  readonly onChoose: (rollId: number) => void;
}

/** The rolls of a stock with their casts in figures and in words: what the plot shows, to be read. */
export function CastTable({ stock, measure, factor, rolls, casts, chosen, onChoose }: CastTableProps) {
  const viewState = useViewState();
  const byRoll = new Map(casts.map(({ rollId, cast }) => [rollId, cast]));
  const rows = rolls.map((roll): CastRow => ({ roll, cast: byRoll.get(roll.id) }));
  const [at, setAt] = useState(0);
  const active = rows.findIndex((row) => row.roll.id === chosen);
  return (
    <section className="cast-table" aria-label={`Rolls of ${stock}`}>
      <h2>The rolls of {stock}</h2>
      <div className="cast-table-grid" style={{ height: `${28 + 26 * Math.min(rows.length, 12) + 4}px` }}>
        <GridList
          label={`Casts of ${stock} rolls`}
          columns={columnsFor(measure, factor)}
          count={rows.length}
          rowAt={(index) => rows[index]}
          rowKey={(index) => rows[index]?.roll.id ?? index}
          active={active < 0 ? at : active}
          onActive={(index) => {
            setAt(index);
            const row = rows[index];
            if (row) onChoose(row.roll.id);
          }}
          isPicked={(index) => rows[index]?.roll.id === chosen}
          onOpen={(index) => {
            const row = rows[index];
            if (row) viewState.go({ view: 'rolls', ids: [row.roll.id] });
          }}
        />
      </div>
    </section>
  );
}

function columnsFor(measure: Measure, factor: CastFactor): readonly GridColumn<CastRow>[] {
  const number = (text: string) => <span className="numbers">{text}</span>;
  const cast = (value: number | null) => number(value === null ? '' : formatSigned(value, 1));
  return [
    { id: 'roll', title: 'Roll', width: 'minmax(5.5rem, 0.6fr)', cell: ({ roll }) => number(roll.name) },
    { id: 'a', title: 'a*', width: '4rem', align: 'end', cell: ({ roll }) => cast(roll.a) },
    { id: 'b', title: 'b*', width: '4rem', align: 'end', cell: ({ roll }) => cast(roll.b) },
    {
      id: 'difference',
      title: MEASURE_WORDS[measure].symbol,
      width: '4.5rem',
      align: 'end',
      cell: ({ roll }) => number(figureOf(roll, measure)),
    },
    {
      id: 'factor',
      title: 'The log',
      width: 'minmax(8rem, 0.9fr)',
      cell: ({ roll }) => describeFactor(roll, factor),
    },
    {
      id: 'say',
      title: 'In words',
      width: 'minmax(14rem, 4fr)',
      cell: (row) => row.cast?.say ?? 'Nothing scanned that says something about a cast.',
    },
  ];
}

function figureOf(roll: PlottedRoll, measure: Measure): string {
  const value = roll[measure];
  const { digits } = MEASURE_WORDS[measure];
  if (value === null) return '';
  return measure === 'deltaE00' ? value.toFixed(digits) : formatSigned(value, digits);
}
