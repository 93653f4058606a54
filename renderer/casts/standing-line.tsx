import type { PlottedRoll } from '../../shared/api/methods/causes-methods.ts';
import type { LogNumber } from '../../shared/domain/colour/logged-roll.ts';
import { NUMBER_WORDS } from '../../shared/text/describe-trend.ts';
import { describeFactor } from './cast-axes.ts';

export interface StandingLineProps {
  readonly factor: LogNumber;
  readonly roll: PlottedRoll;
  readonly among: readonly PlottedRoll[];
}

const WIDE = 220;
const EDGE = 4;

/** Where a roll stands among others on one thing the log knows: a tick for each, its own in pencil. */
export function StandingLine({ factor, roll, among }: StandingLineProps) {
  const values = among.flatMap((each) => each[factor] ?? []);
  const own = roll[factor];
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const x = (value: number) =>
    high === low ? WIDE / 2 : EDGE + ((WIDE - 2 * EDGE) * (value - low)) / (high - low);
  return (
    <div className="standing">
      <p>
        <b className="numbers">{describeFactor(roll, factor)}</b>
        <br />
        <span className="casts-quiet">{rankWords(factor, own, values)}</span>
      </p>
      <svg viewBox={`0 0 ${WIDE} 20`} width={WIDE} height="20" aria-hidden="true">
        <path d={`M0 14.5H${WIDE}`} className="standing-rule" />
        {among.map((each) => {
          const value = each[factor];
          return value === null ? null : (
            <path key={each.id} d={`M${x(value)} 6v10`} className="standing-tick" />
          );
        })}
        {own === null ? null : <path d={`M${x(own)} 1v16`} className="standing-own" />}
      </svg>
    </div>
  );
}

function rankWords(factor: LogNumber, own: number | null, values: readonly number[]): string {
  const { label, less, more } = NUMBER_WORDS[factor];
  if (own === null || values.length < 2) return label;
  const above = values.filter((value) => value > own).length;
  const below = values.filter((value) => value < own).length;
  if (above === below) return `${label}: in the middle`;
  const [word, many] = above > below ? [less, above] : [more, below];
  return `${label}: ${word} than ${many === 1 ? '1 other' : `${many} others`}`;
}
