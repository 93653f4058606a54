import { Button } from '../ui/button.tsx';
import { count } from './page-words.ts';
import { useWaitingRolls, WAITING_SHOWN } from './use-waiting-rolls.ts';

export interface WaitingRollsProps {
  readonly onFile: (rollId: number) => void;
}

/** The rolls that are developed and lie in no binder yet, with the way to file each. */
export function WaitingRolls({ onFile }: WaitingRollsProps) {
  const waiting = useWaitingRolls();
  if (waiting === null) return <div className="waiting-rolls" aria-busy="true" />;
  if (waiting.count === 0) {
    return (
      <section className="waiting-rolls" aria-labelledby="waiting-rolls-title">
        <h2 id="waiting-rolls-title">Waiting to be filed</h2>
        <p className="waiting-rolls-none">Every developed roll lies in a binder.</p>
      </section>
    );
  }
  const more = waiting.count - WAITING_SHOWN;
  return (
    <section className="waiting-rolls" aria-labelledby="waiting-rolls-title">
      <h2 id="waiting-rolls-title">Waiting to be filed</h2>
      <ul>
        {waiting.rolls.map((roll) => (
          <li key={roll.id}>
            <span className="numbers waiting-rolls-number">{roll.number}</span>
            <span className="waiting-rolls-title">{roll.title ?? roll.stock?.name ?? ''}</span>
            <span className="waiting-rolls-film">
              {roll.filmFormat}, {sizeOf(roll)}
            </span>
            <Button onPress={() => onFile(roll.id)} name={`File it: roll ${roll.number}`}>
              File it
            </Button>
          </li>
        ))}
      </ul>
      {more > 0 ? <p className="waiting-rolls-none">and {count(more, 'more roll')}</p> : null}
    </section>
  );
}

/** The frames that are noted, or else what the film is sold for. */
function sizeOf({
  frames,
  exposures,
}: {
  readonly frames: number;
  readonly exposures: number | null;
}): string {
  return frames === 0 && exposures !== null ? count(exposures, 'exposure') : count(frames, 'frame');
}
