import type { Trend } from '../../shared/api/methods/colour-methods.ts';
import { CAST_FACTORS, formatSigned } from './cast-axes.ts';

export interface TrendWordsProps {
  readonly trend: Trend;
  /** Every trend that was worked out, this one among them. */
  readonly trends: readonly Trend[];
  /** Rolls of the stock whose cast is known though the log does not say the rest. */
  readonly unplaced: number;
}

/** What the plot says in words: how much, how sure, and what else goes with it. It names no cause. */
export function TrendWords({ trend, trends, unplaced }: TrendWordsProps) {
  const others = trends.filter(
    (other) => other.of === trend.of && other.against !== trend.against && other.correlation !== null,
  );
  const asked = trends.filter((each) => each.correlation !== null).length;
  return (
    <section className="trend" aria-label="What the plot says">
      <div className="trend-words">
        <div>
          <h2>{trend.slope === null ? 'Not enough rolls' : goTogether(trend)}</h2>
          <p>{trend.say}</p>
          {unplaced > 0 ? (
            <p className="casts-quiet">
              {unplaced === 1 ? '1 more roll is measured' : `${unplaced} more rolls are measured`}, of which
              the log does not say the {CAST_FACTORS[trend.against].label}.
            </p>
          ) : null}
        </div>
        <div>
          <h2>That does not say why</h2>
          <p>
            {others.length === 0
              ? 'What else the rolls have in common is not known here: the log says too little of it.'
              : `The same casts against ${others.map(otherWords).join('; ')}. What goes together with the cast in several ways cannot be told apart by these rolls.`}
          </p>
        </div>
      </div>
      {trend.correlation === null ? null : (
        <dl className="trend-figures numbers">
          <Figure label="Rank correlation" value={formatSigned(trend.correlation, 2)} />
          {trend.correlationLow === null || trend.correlationHigh === null ? null : (
            <Figure
              label="95 % interval"
              value={`${formatSigned(trend.correlationLow, 2)} to ${formatSigned(trend.correlationHigh, 2)}`}
            />
          )}
          <Figure label="Rolls" value={String(trend.rolls)} />
          {trend.chance === null ? null : (
            <Figure label="By chance" value={chanceWords(trend.chance)} note={`${asked} questions asked`} />
          )}
        </dl>
      )}
    </section>
  );
}

function Figure({ label, value, note }: { label: string; value: string; note?: string }) {
  return (
    <div>
      <dt>{label}</dt>
      <dd>
        <b>{value}</b>
        {note === undefined ? '' : `, ${note}`}
      </dd>
    </div>
  );
}

function otherWords(other: Trend): string {
  return `${CAST_FACTORS[other.against].label}: rank correlation ${formatSigned(other.correlation ?? 0, 2)} over ${other.rolls} rolls`;
}

/** The interval of the slope holds 0 or it does not; no more is said. */
function goTogether({ slopeLow, slopeHigh }: Trend): string {
  const holdsZero = slopeLow === null || slopeHigh === null || slopeLow * slopeHigh <= 0;
  return holdsZero ? 'No common course can be seen' : 'The two go together';
}

function chanceWords(chance: number): string {
  if (chance < 0.0001) return 'less than 1 in 10 000';
  if (chance > 0.5) return 'more often than not';
  return `1 in ${Math.round(1 / chance)}`;
}
