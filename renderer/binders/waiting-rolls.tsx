import { useArchive } from '../api/use-query.ts';
import { Button } from '../ui/button.tsx';
import { count } from './page-words.ts';

export interface WaitingRollsProps {
  readonly onFile: (rollId: number) => void;
}

/** How many of them are named; the dialog lists all. */
const NAMED = 5;

/** The rolls that are developed and lie in no binder yet, with the way to file each. */
export function WaitingRolls({ onFile }: WaitingRollsProps) {
  const { data: order } = useArchive('rolls.order', {
    sort: 'number',
    descending: false,
    filter: { states: ['developed'] },
  });
  const ids = order?.ids ?? [];
  const { data: rows } = useArchive(
    'rolls.rows',
    { ids: ids.slice(0, NAMED) },
    { when: ids.length > 0, keepFormer: true },
  );
  if (order === undefined) return <div className="waiting-rolls" aria-busy="true" />;
  if (ids.length === 0) {
    return (
      <section className="waiting-rolls" aria-labelledby="waiting-rolls-title">
        <h2 id="waiting-rolls-title">Waiting to be filed</h2>
        <p className="waiting-rolls-none">Every developed roll lies in a binder.</p>
      </section>
    );
  }
  const more = ids.length - NAMED;
  return (
    <section className="waiting-rolls" aria-labelledby="waiting-rolls-title">
      <h2 id="waiting-rolls-title">Waiting to be filed</h2>
      <ul>
        {(rows ?? []).slice(0, ids.length).map((roll) => (
          <li key={roll.id}>
            <span className="numbers waiting-rolls-number">{roll.number}</span>
            <span className="waiting-rolls-title">{roll.title ?? roll.stock?.name ?? ''}</span>
            <span className="waiting-rolls-film">
              {roll.filmFormat}, {count(roll.frames, 'frame')}
            </span>
            <Button onPress={() => onFile(roll.id)} name={`File roll ${roll.number}`}>
              File it
            </Button>
          </li>
        ))}
      </ul>
      {more > 0 ? <p className="waiting-rolls-none">and {count(more, 'more roll')}</p> : null}
    </section>
  );
}
