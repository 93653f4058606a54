import type { PlottedRoll } from '../../shared/api/methods/causes-methods.ts';
import { formatRoute } from '../state/route.ts';
import { useViewState } from '../state/view-state.tsx';
import { Button } from '../ui/button.tsx';
import { describeFactor, describeMeasure } from './cast-axes.ts';
import './roll-panel.css';

export interface DevelopmentPanelProps {
  readonly developmentId: number;
  readonly rolls: readonly PlottedRoll[];
}

/** One development: its rolls with what was measured on each, and what they have in common. */
export function DevelopmentPanel({ developmentId, rolls }: DevelopmentPanelProps) {
  const viewState = useViewState();
  const [first] = rolls;
  if (first === undefined) return <p>The development is not among these.</p>;
  return (
    <>
      <h2 className="cast-roll-head">
        <span className="numbers">{first.development?.name}</span>{' '}
        <small>{rolls.length === 1 ? '1 roll' : `${rolls.length} rolls`}</small>
      </h2>
      <p>
        {describeFactor(first, 'temperatureErrorC')}; {describeFactor(first, 'bathRolls')};{' '}
        {describeFactor(first, 'effectiveSeconds')}.
      </p>
      <dl className="cast-roll-facts">
        {rolls.map((roll) => (
          <div key={roll.id}>
            <dt className="numbers">
              <a href={formatRoute({ view: 'rolls', ids: [String(roll.id)], params: {} })}>{roll.name}</a>
            </dt>
            <dd className="numbers">{measuresOf(roll)}</dd>
          </div>
        ))}
      </dl>
      <div>
        <Button
          look="main"
          onPress={() => viewState.go({ view: 'developments', ids: [developmentId] })}
          name={`Open the development of ${first.development?.name ?? ''}`}
        >
          Open the development
        </Button>
      </div>
    </>
  );
}

function measuresOf(roll: PlottedRoll): string {
  const told = (['deltaA', 'deltaB', 'fog'] as const).flatMap((measure) => {
    const value = roll[measure];
    return value === null ? [] : [describeMeasure(measure, value)];
  });
  return told.length === 0 ? 'not measured' : told.join('; ');
}
