import { PROCESS_NAMES } from '../../shared/text/format.ts';
import type { Roll } from '../../shared/api/methods/film-methods.ts';
import { useArchive } from '../api/use-query.ts';
import { RouteLink } from '../state/view-state.tsx';
import { Button } from '../ui/button.tsx';
import { count, rowWords, type RollOnPage } from './page-words.ts';
import './roll-card.css';

export interface RollCardProps {
  readonly roll: RollOnPage;
  readonly onTakeOut: () => void;
  readonly takingOut: boolean;
}

/** What a roll on the page is, beside the rows it lies in. */
export function RollCard({ roll, onTakeOut, takingOut }: RollCardProps) {
  const { data } = useArchive('rolls.get', { id: roll.rollId });
  return (
    <article className="roll-card" aria-label={`Roll ${roll.number}`}>
      <header className="roll-card-head">
        <h3 className="numbers">
          <RouteLink to={{ view: 'rolls', ids: [roll.rollId] }}>{roll.number}</RouteLink>
        </h3>
        <span className="roll-card-title">{roll.title ?? ''}</span>
        <span className="roll-card-rows">{rowWords(roll.rows)}</span>
      </header>
      {data ? <Facts roll={data} onPage={roll.frames} /> : <div aria-busy="true" />}
      <div className="roll-card-actions">
        <Button look="quiet" busy={takingOut} onPress={onTakeOut} name={`Take it out: roll ${roll.number}`}>
          Take it out
        </Button>
      </div>
    </article>
  );
}

function Facts({ roll, onPage }: { readonly roll: Roll; readonly onPage: number }) {
  const lines = factLines(roll);
  return (
    <>
      <dl className="roll-card-facts">
        {lines.map(([label, value, more]) => (
          <div key={label}>
            <dt>{label}</dt>
            <dd>
              {value} {more === null ? null : <span className="roll-card-more">{more}</span>}
            </dd>
          </div>
        ))}
      </dl>
      {roll.frames > onPage ? (
        <p className="roll-card-elsewhere">
          {count(onPage, 'frame')} of {roll.frames} on this page.
        </p>
      ) : null}
      {roll.note === null ? null : <p className="roll-card-note">{roll.note}</p>}
    </>
  );
}

function factLines(roll: Roll): readonly (readonly [string, string, string | null])[] {
  const lines: (readonly [string, string | null, string | null])[] = [
    [
      'Stock',
      roll.stock && `${roll.stock.name}, ${roll.filmFormat}`,
      roll.expires && `exp. ${roll.expires.typed}`,
    ],
    ['Camera', roll.camera?.name ?? null, roll.exposureIndex === null ? null : `EI ${roll.exposureIndex}`],
    [
      'Outing',
      roll.outings.map(({ title }) => title).join(', ') || null,
      roll.outings[0]?.date?.typed ?? null,
    ],
    [
      'Development',
      roll.developments.map(({ process }) => PROCESS_NAMES[process]).join(', ') || null,
      roll.developments[0]?.date?.typed ?? roll.developed?.typed ?? null,
    ],
    ['Scans', roll.scans === 0 ? 'none yet' : `${roll.scans} of ${count(roll.frames, 'frame')}`, null],
  ];
  return lines.flatMap(([label, value, more]) => (value === null ? [] : [[label, value, more] as const]));
}
