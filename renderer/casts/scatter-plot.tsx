import { useId } from 'react';
import type { Trend } from '../../shared/api/methods/causes-methods.ts';
import type { LogNumber, Measure, Per } from '../../shared/domain/colour/logged-roll.ts';
import { countOf, MEASURE_WORDS, NUMBER_WORDS } from '../../shared/text/describe-trend.ts';
import { PencilGrain } from '../film/pencil-marks.tsx';
import { describeMeasure, formatSigned } from './cast-axes.ts';
import { plotScale, trendLine, type CastPoint, type CastPoints } from './cast-points.ts';
import { PlotDots } from './plot-dots.tsx';
import { acrossPx, PLOT, UpwardAxis, upwardPx, upwardScale } from './plot-upward.tsx';
import './scatter-plot.css';

export interface ScatterPlotProps {
  readonly stock: string;
  readonly per: Per;
  readonly measure: Measure;
  readonly factor: LogNumber;
  readonly drawn: CastPoints;
  readonly trend: Pick<Trend, 'slope' | 'slopeLow' | 'slopeHigh'> | null;
  /** What the developer may be off by, and how that is written; only where the axis is that error. */
  readonly tolerance: { readonly eitherWay: number; readonly label: string } | null;
  /** The roll or development in question, which is ringed. */
  readonly chosen: number | null;
  /** Those that stand out from their stock, or lie far from the line: they are named. */
  readonly named: ReadonlySet<number>;
  readonly onChoose: (id: number) => void;
}

/** Axes are at least this wide. Our choice: less would blow up noise. */
const LEAST_REACH: Readonly<Record<LogNumber, number>> = {
  temperatureErrorC: 1,
  effectiveSeconds: 20,
  bathRolls: 2,
  monthsPastExpiry: 12,
  warmMonths: 12,
};

/** Casts or fog of rolls against one number that the log knows. Every dot is a link; arrows go from dot to dot. */
export function ScatterPlot(props: ScatterPlotProps) {
  const { stock, per, measure, factor, drawn, trend, tolerance, chosen, named, onChoose } = props;
  const grain = useId();
  const inside = useId();
  const { points } = drawn;
  const cast = MEASURE_WORDS[measure];
  const words = NUMBER_WORDS[factor];
  const across = plotScale(
    points.map((point) => point.x),
    LEAST_REACH[factor],
    words.hasZero,
  );
  const upward = upwardScale(
    measure,
    points.map((point) => point.y),
  );
  const x = (value: number) => acrossPx(across, value);
  const y = (value: number) => upwardPx(upward, value);
  const line = trend === null ? null : trendLine(points, trend);
  const ownCount = points.filter((point) => point.own).length;
  const fieldHigh = PLOT.high - PLOT.top - PLOT.foot;

  return (
    <svg
      className="scatter"
      role="group"
      aria-label={`${stock}: ${cast.label} against ${words.label}, ${countOf(ownCount, per)}, ${points.length - ownCount} of other stocks`}
      viewBox={`0 0 ${PLOT.wide} ${PLOT.high}`}
    >
      <PencilGrain id={grain} />
      <clipPath id={inside}>
        <rect x={PLOT.left} y={PLOT.top} width={PLOT.wide - PLOT.left - PLOT.right} height={fieldHigh} />
      </clipPath>
      {tolerance === null ? null : (
        <g aria-hidden="true">
          <rect
            className="scatter-tolerance"
            x={x(-tolerance.eitherWay)}
            width={x(tolerance.eitherWay) - x(-tolerance.eitherWay)}
            y={PLOT.top}
            height={fieldHigh}
          />
          <text className="scatter-tolerance-words" x={x(0)} y={PLOT.top + 14} textAnchor="middle">
            {tolerance.label}
          </text>
        </g>
      )}
      <UpwardAxis measure={measure} scale={upward} />
      <g aria-hidden="true">
        {line === null ? null : (
          <g clipPath={`url(#${inside})`}>
            <path
              className="scatter-interval"
              d={
                `M${x(line.from.x)} ${y(line.from.low)}L${x(line.middle.x)} ${y(line.middle.y)}` +
                `L${x(line.to.x)} ${y(line.to.low)}V${y(line.to.high)}L${x(line.middle.x)} ${y(line.middle.y)}` +
                `L${x(line.from.x)} ${y(line.from.high)}Z`
              }
            />
            <path
              className="scatter-line"
              d={`M${x(line.from.x)} ${y(line.from.y)}L${x(line.to.x)} ${y(line.to.y)}`}
            />
          </g>
        )}
        <path
          d={`M${PLOT.left} ${PLOT.high - PLOT.foot}H${PLOT.wide - PLOT.right}`}
          className="scatter-foot"
        />
        {across.ticks.map((tick) => (
          <g key={tick}>
            <path d={`M${x(tick)} ${PLOT.high - PLOT.foot}v5`} className="scatter-foot" />
            <text className="scatter-figure" x={x(tick)} y={PLOT.high - PLOT.foot + 20} textAnchor="middle">
              {words.signed ? formatSigned(tick, across.digits) : tick.toFixed(across.digits)}
            </text>
          </g>
        ))}
        <text x={PLOT.left} y={PLOT.high - 14}>
          {words.less}
        </text>
        <text x={(PLOT.left + PLOT.wide - PLOT.right) / 2} y={PLOT.high - 14} textAnchor="middle">
          {words.title}
        </text>
        <text x={PLOT.wide - PLOT.right} y={PLOT.high - 14} textAnchor="end">
          {words.more}
        </text>
      </g>
      <PlotDots
        points={points.map((point) => ({
          ...point,
          leftPx: x(point.x),
          topPx: y(point.y),
          says: nameOf(point),
        }))}
        per={per}
        chosen={chosen}
        named={named}
        grain={grain}
        onChoose={onChoose}
      />
      <g aria-hidden="true" className="scatter-legend">
        <circle
          cx={PLOT.wide - PLOT.right - 220}
          cy={PLOT.high - PLOT.foot - 36}
          r="5"
          className="scatter-dot"
        />
        <text x={PLOT.wide - PLOT.right - 206} y={PLOT.high - PLOT.foot - 31}>
          {stock}, {countOf(ownCount, per)}
        </text>
        {points.length > ownCount ? (
          <>
            <circle
              cx={PLOT.wide - PLOT.right - 220}
              cy={PLOT.high - PLOT.foot - 14}
              r="4.5"
              className="scatter-other"
            />
            <text x={PLOT.wide - PLOT.right - 206} y={PLOT.high - PLOT.foot - 9}>
              other stocks, {countOf(points.length - ownCount, per)}
            </text>
          </>
        ) : null}
      </g>
    </svg>
  );

  function nameOf(point: CastPoint): string {
    const at = words.signed ? formatSigned(point.x, words.digits) : point.x.toFixed(words.digits);
    const what = point.own ? '' : ', another stock';
    const head = per === 'roll' ? 'Roll' : 'Development of';
    const far = named.has(point.id) ? ', stands out' : '';
    return `${head} ${point.name}: ${describeMeasure(measure, point.y)}, ${words.label} ${at}${what}${far}`;
  }
}
