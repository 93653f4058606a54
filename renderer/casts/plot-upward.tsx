import type { Measure } from '../../shared/domain/colour/logged-roll.ts';
import { MEASURE_WORDS } from '../../shared/text/describe-trend.ts';
import { formatSigned } from './cast-axes.ts';
import { plotScale, type PlotScale } from './cast-points.ts';

/** The plot in its own pixels, and where its field lies. */
export const PLOT = { wide: 880, high: 560, left: 92, right: 16, top: 14, foot: 62 } as const;

/** Axes are at least this wide, in the unit of the measure. Our choice: less would blow up noise. */
const LEAST_REACH: Readonly<Record<Measure, number>> = { deltaA: 4, deltaB: 4, deltaE00: 4, fog: 0.1 };

/** The scale upward of a measure. */
export function upwardScale(measure: Measure, values: readonly number[]): PlotScale {
  return plotScale(values, LEAST_REACH[measure], true);
}

/** Where a value of the scale lies, px from the top. */
export function upwardPx(scale: PlotScale, value: number): number {
  return PLOT.top + ((PLOT.high - PLOT.top - PLOT.foot) * (scale.high - value)) / (scale.high - scale.low);
}

/** Where a value of a scale across lies, px from the left. */
export function acrossPx(scale: Pick<PlotScale, 'low' | 'high'>, value: number): number {
  return PLOT.left + ((PLOT.wide - PLOT.left - PLOT.right) * (value - scale.low)) / (scale.high - scale.low);
}

/** Lines, figures and words of the axis upward; 0 is the stock itself. */
export function UpwardAxis({ measure, scale }: { readonly measure: Measure; readonly scale: PlotScale }) {
  const words = MEASURE_WORDS[measure];
  const middle = -(PLOT.top + PLOT.high - PLOT.foot) / 2;
  return (
    <g aria-hidden="true">
      {scale.ticks.map((tick) => (
        <g key={tick}>
          <path
            d={`M${PLOT.left} ${upwardPx(scale, tick)}H${PLOT.wide - PLOT.right}`}
            className={tick === 0 ? 'scatter-zero' : 'scatter-grid'}
          />
          <text className="scatter-figure" x={PLOT.left - 10} y={upwardPx(scale, tick) + 4} textAnchor="end">
            {measure === 'deltaE00' ? tick.toFixed(scale.digits) : formatSigned(tick, scale.digits)}
          </text>
        </g>
      ))}
      <g transform="rotate(-90)">
        <text x={-(PLOT.high - PLOT.foot)} y={18}>
          {words.less}
        </text>
        <text x={middle} y={18} textAnchor="middle">
          {words.title}
        </text>
        <text x={-PLOT.top} y={18} textAnchor="end">
          {words.more}
        </text>
      </g>
    </g>
  );
}
