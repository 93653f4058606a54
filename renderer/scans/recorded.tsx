import type { Output } from '../../shared/api/contract.ts';
import type { RollRow } from '../../shared/api/methods/film-methods.ts';
import { useUndo } from '../api/use-undo.ts';
import { RouteLink } from '../state/view-state.tsx';
import { Button } from '../ui/button.tsx';
import { count } from './scan-words.ts';

export interface RecordedProps {
  readonly recorded: Output<'scans.accept'>;
  readonly roll: RollRow;
}

/** What was recorded, with the way to take it back and the ways on. */
export function Recorded({ recorded, roll }: RecordedProps) {
  const undo = useUndo();
  const { linked, framesAdded } = recorded;
  return (
    <section className="scans-recorded" role="status">
      <h2>
        Recorded: {linked === 1 ? 'one scan is' : `${linked} scans are`} tied to frames of {roll.number}
      </h2>
      <p>
        {framesAdded === 0
          ? 'The roll had all these frames.'
          : `The roll got ${count(framesAdded, 'new frame')}.`}{' '}
        The files stay where they are.
      </p>
      <div className="scans-ways">
        {undo.undoes === null ? null : (
          <Button onPress={() => void undo.undo()} name={`Undo: ${undo.undoes}`}>
            Undo
          </Button>
        )}
        <RouteLink to={{ view: 'rolls', ids: [roll.id] }}>See the roll</RouteLink>
        <RouteLink to={{ view: 'sheets', params: { roll: String(roll.id) } }}>Contact sheet</RouteLink>
        {roll.pages.length === 0 ? (
          <RouteLink to={{ view: 'binders', params: { file: String(roll.id) } }}>File the roll</RouteLink>
        ) : null}
      </div>
    </section>
  );
}
