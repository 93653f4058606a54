import type { Groups, Trend } from '../../shared/api/methods/causes-methods.ts';
import type { Per } from '../../shared/domain/colour/logged-roll.ts';
import { sayChance } from '../../shared/domain/colour/faults.ts';
import { NUMBER_WORDS } from '../../shared/text/describe-trend.ts';
import { formatRoute } from '../state/route.ts';
import { factorLabel, formatSigned, isLogNumber, type CastFactor } from './cast-axes.ts';

/** An answer about a number of the log, or about kinds. */
export type Answer = Trend | Groups;

/** What an answer is about. */
export function factorOf(answer: Answer): CastFactor {
  return 'against' in answer ? answer.against : answer.by;
}

export interface TrendWordsProps {
  readonly answer: Answer;
  /** Every answer that was worked out, this one among them. */
  readonly answers: readonly Answer[];
  readonly per: Per;
}

/** What the plot says in words: how much, how sure, who lies apart, and what else goes with it. It names no cause. */
export function TrendWords({ answer, answers, per }: TrendWordsProps) {
  const factor = factorOf(answer);
  const others = answers.filter(
    (other) => other.of === answer.of && factorOf(other) !== factor && other.chance !== null,
  );
  const note = isLogNumber(factor) ? NUMBER_WORDS[factor].note : null;
  return (
    <section className="trend" aria-label="What the plot says">
      <div className="trend-words">
        <div>
          <h2>{headOf(answer, per)}</h2>
          <p>{answer.say}</p>
          {answer.unknown > 0 ? (
            <p className="casts-quiet">
              {answer.unknown} more {answer.unknown === 1 ? `${per} is` : `${per}s are`} measured, of which
              the log does not say the {factorLabel(factor)}.
            </p>
          ) : null}
          {answer.outliers.length > 0 ? (
            <p>
              Far from {'against' in answer ? 'the line' : 'the middle of their kind'}:{' '}
              {answer.outliers.map(({ id, name }, at) => (
                <span key={id}>
                  {at === 0 ? '' : ', '}
                  <a
                    className="numbers"
                    href={formatRoute({
                      view: per === 'roll' ? 'rolls' : 'developments',
                      ids: [String(id)],
                      params: {},
                    })}
                  >
                    {name}
                  </a>
                </span>
              ))}
              .
            </p>
          ) : null}
          {note === null ? null : <p className="casts-quiet">{note}</p>}
        </div>
        <div>
          <h2>That does not say why</h2>
          <p>
            {others.length === 0
              ? `What else the ${per}s have in common is not known here: the log says too little of it.`
              : `The same against ${others.map(otherWords).join('; ')}. What goes together with it in several ways cannot be told apart by these ${per}s.`}
          </p>
        </div>
      </div>
      {answer.chance === null ? null : (
        <dl className="trend-figures numbers">
          {'against' in answer && answer.correlation !== null ? (
            <Figure label="Rank correlation" value={formatSigned(answer.correlation, 2)} />
          ) : null}
          {'against' in answer && answer.correlationLow !== null && answer.correlationHigh !== null ? (
            <Figure
              label="95 % interval"
              value={`${formatSigned(answer.correlationLow, 2)} to ${formatSigned(answer.correlationHigh, 2)}`}
            />
          ) : null}
          <Figure label={per === 'roll' ? 'Rolls' : 'Developments'} value={String(answer.count)} />
          <Figure
            label="By chance"
            value={sayChance(answer.corrected ?? 1)}
            note={`${answer.questions} questions asked, corrected after Holm`}
          />
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

function otherWords(other: Answer): string {
  const what = factorLabel(factorOf(other));
  return 'against' in other
    ? `${what}: rank correlation ${formatSigned(other.correlation ?? 0, 2)} over ${other.count}`
    : `${what}: by chance ${sayChance(other.corrected ?? 1)} over ${other.count}`;
}

/** An answer that chance gives as often as once in twenty is no finding; no more is said. */
const RARE = 0.05;

function headOf(answer: Answer, per: Per): string {
  if (answer.chance === null) return `Not enough ${per}s`;
  const isRare = (answer.corrected ?? 1) < RARE;
  if ('against' in answer) return isRare ? 'The two go together' : 'No common course can be seen';
  return isRare ? 'They differ' : 'No difference can be seen';
}
