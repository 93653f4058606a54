import { useId, useRef, type KeyboardEvent } from 'react';
import type { Trend } from '../../shared/api/methods/colour-methods.ts';
import { PencilGrain, PencilLines } from '../film/pencil-marks.tsx';
import { steadyRing } from '../film/pencil-ring.ts';
import { formatRoute } from '../state/route.ts';
import {
  CAST_AXES,
  CAST_FACTORS,
  describeCast,
  formatSigned,
  type CastAxis,
  type CastFactor,
} from './cast-axes.ts';
import { plotScale, trendLine, type CastPoint, type CastPoints } from './cast-points.ts';
import './scatter-plot.css';

export interface ScatterPlotProps {
  readonly stock: string;
  readonly axis: CastAxis;
  readonly factor: CastFactor;
  readonly drawn: CastPoints;
  readonly trend: Pick<Trend, 'slope' | 'slopeLow' | 'slopeHigh'> | null;
  /** What the developer may be off by, and how that is written; only where the axis is that error. */
  readonly tolerance: { readonly eitherWay: number; readonly label: string } | null;
  /** The roll in question, which is ringed. */
  readonly chosen: number | null;
  /** Rolls that stand out from their stock, which are named. */
  readonly standing: ReadonlySet<number>;
  readonly onChoose: (rollId: number) => void;
}

const WIDE = 880;
const HIGH = 560;
const LEFT = 92;
const RIGHT = 16;
const TOP = 14;
const FOOT = 62;

/** Axes are at least this wide: °C, months, cm², s; and a* or b*. Our choice: less would blow up noise. */
const LEAST_REACH = {
  temperatureErrorC: 1,
  monthsPastExpiry: 12,
  bathUsedCm2: 1000,
  developerSeconds: 20,
} as const;
const LEAST_CAST = 4;

/** A pointer rests on a dot this long before its roll is taken up, ms. Our choice: passing over is no pointing. */
const REST_MS = 150;

/** Casts of rolls against one thing the log knows. Every dot is a link to its roll; arrows go from dot to dot. */
export function ScatterPlot(props: ScatterPlotProps) {
  const { stock, axis, factor, drawn, trend, tolerance, chosen, standing, onChoose } = props;
  const grain = useId();
  const inside = useId();
  const dots = useRef<SVGGElement>(null);
  const resting = useRef<ReturnType<typeof setTimeout> | null>(null);
  const { points, relative } = drawn;
  const cast = CAST_AXES[axis];
  const words = CAST_FACTORS[factor];
  const across = plotScale(
    points.map((point) => point.x),
    LEAST_REACH[factor],
    words.hasZero,
  );
  const upward = plotScale(
    points.map((point) => point.y),
    LEAST_CAST,
    relative,
  );
  const x = (value: number) =>
    LEFT + ((WIDE - LEFT - RIGHT) * (value - across.low)) / (across.high - across.low);
  const y = (value: number) =>
    TOP + ((HIGH - TOP - FOOT) * (upward.high - value)) / (upward.high - upward.low);
  const line = trend === null ? null : trendLine(points, trend);
  const ownCount = points.filter((point) => point.own).length;
  const active = Math.max(
    0,
    points.findIndex((point) => point.rollId === chosen),
  );

  function press(event: KeyboardEvent, at: number): void {
    const last = points.length - 1;
    const to =
      event.key === 'ArrowRight' || event.key === 'ArrowDown'
        ? Math.min(at + 1, last)
        : event.key === 'ArrowLeft' || event.key === 'ArrowUp'
          ? Math.max(at - 1, 0)
          : event.key === 'Home'
            ? 0
            : event.key === 'End'
              ? last
              : null;
    const point = to === null ? undefined : points[to];
    if (to === null || !point) return;
    event.preventDefault();
    onChoose(point.rollId);
    const next = dots.current?.querySelector(`[data-roll="${point.rollId}"]`);
    if (next instanceof SVGElement) next.focus();
  }
  function rest(rollId: number): void {
    leave();
    resting.current = setTimeout(() => onChoose(rollId), REST_MS);
  }
  function leave(): void {
    if (resting.current !== null) clearTimeout(resting.current);
  }

  return (
    <svg
      className="scatter"
      role="group"
      aria-label={`Rolls of ${stock}: cast ${cast.label} against ${words.label}, ${ownCount} rolls, ${points.length - ownCount} of other stocks`}
      viewBox={`0 0 ${WIDE} ${HIGH}`}
    >
      <PencilGrain id={grain} />
      <clipPath id={inside}>
        <rect x={LEFT} y={TOP} width={WIDE - LEFT - RIGHT} height={HIGH - TOP - FOOT} />
      </clipPath>
      <g aria-hidden="true">
        {tolerance === null ? null : (
          <>
            <rect
              className="scatter-tolerance"
              x={x(-tolerance.eitherWay)}
              width={x(tolerance.eitherWay) - x(-tolerance.eitherWay)}
              y={TOP}
              height={HIGH - TOP - FOOT}
            />
            <text className="scatter-tolerance-words" x={x(0)} y={TOP + 14} textAnchor="middle">
              {tolerance.label}
            </text>
          </>
        )}
        {upward.ticks.map((tick) => (
          <g key={tick}>
            <path
              d={`M${LEFT} ${y(tick)}H${WIDE - RIGHT}`}
              className={relative && tick === 0 ? 'scatter-zero' : 'scatter-grid'}
            />
            <text className="scatter-figure" x={LEFT - 10} y={y(tick) + 4} textAnchor="end">
              {formatSigned(tick, upward.digits)}
            </text>
          </g>
        ))}
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
        <path d={`M${LEFT} ${HIGH - FOOT}H${WIDE - RIGHT}`} className="scatter-foot" />
        {across.ticks.map((tick) => (
          <g key={tick}>
            <path d={`M${x(tick)} ${HIGH - FOOT}v5`} className="scatter-foot" />
            <text className="scatter-figure" x={x(tick)} y={HIGH - FOOT + 20} textAnchor="middle">
              {words.signed ? formatSigned(tick, across.digits) : tick.toFixed(across.digits)}
            </text>
          </g>
        ))}
        <text x={LEFT} y={HIGH - 14}>
          {words.less}
        </text>
        <text x={(LEFT + WIDE - RIGHT) / 2} y={HIGH - 14} textAnchor="middle">
          {words.title}
        </text>
        <text x={WIDE - RIGHT} y={HIGH - 14} textAnchor="end">
          {words.more}
        </text>
        <g transform="rotate(-90)">
          <text x={-(HIGH - FOOT)} y={18}>
            {cast.less}
          </text>
          <text x={-(TOP + HIGH - FOOT) / 2} y={18} textAnchor="middle">
            {relative ? `${cast.symbol} less the stock’s own` : cast.symbol}
          </text>
          <text x={-TOP} y={18} textAnchor="end">
            {cast.more}
          </text>
        </g>
      </g>
      <g ref={dots} onMouseLeave={leave}>
        {points.map((point, at) => (
          <a
            key={point.rollId}
            href={formatRoute({ view: 'rolls', ids: [String(point.rollId)], params: {} })}
            data-roll={point.rollId}
            tabIndex={at === active ? 0 : -1}
            aria-label={nameOf(point)}
            className="scatter-roll"
            onFocus={() => onChoose(point.rollId)}
            onKeyDown={(event) => press(event, at)}
            onMouseEnter={() => rest(point.rollId)}
            onMouseLeave={leave}
          >
            <circle cx={x(point.x)} cy={y(point.y)} r="11" className="scatter-reach" />
            <circle cx={x(point.x)} cy={y(point.y)} r={point.own ? 5 : 4.5} className={dotClass(point)} />
            {point.rollId === chosen ? (
              <g
                aria-hidden="true"
                transform={`translate(${x(point.x)} ${y(point.y)})`}
                className="scatter-ring"
              >
                <PencilLines
                  lines={steadyRing({ xMm: 0, yMm: 0, acrossMm: 20 }, String(point.rollId))}
                  grain={grain}
                />
              </g>
            ) : null}
            <text
              aria-hidden="true"
              className={
                point.rollId === chosen || standing.has(point.rollId)
                  ? 'scatter-name'
                  : 'scatter-name scatter-hint'
              }
              x={x(point.x) + (x(point.x) > WIDE * 0.8 ? -1 : 1) * (point.rollId === chosen ? 28 : 11)}
              y={y(point.y) + 5}
              textAnchor={x(point.x) > WIDE * 0.8 ? 'end' : 'start'}
            >
              {point.roll}
            </text>
          </a>
        ))}
      </g>
      <g aria-hidden="true" className="scatter-legend">
        <circle cx={WIDE - RIGHT - 190} cy={HIGH - FOOT - 36} r="5" className="scatter-dot" />
        <text x={WIDE - RIGHT - 176} y={HIGH - FOOT - 31}>
          {stock}, {ownCount} {ownCount === 1 ? 'roll' : 'rolls'}
        </text>
        {points.length > ownCount ? (
          <>
            <circle cx={WIDE - RIGHT - 190} cy={HIGH - FOOT - 14} r="4.5" className="scatter-other" />
            <text x={WIDE - RIGHT - 176} y={HIGH - FOOT - 9}>
              other stocks, {points.length - ownCount} {points.length - ownCount === 1 ? 'roll' : 'rolls'}
            </text>
          </>
        ) : null}
      </g>
    </svg>
  );

  function dotClass(point: CastPoint): string {
    if (point.rollId === chosen) return 'scatter-chosen';
    return point.own ? 'scatter-dot' : 'scatter-other';
  }
  function nameOf(point: CastPoint): string {
    const at = words.signed ? formatSigned(point.x, words.digits) : point.x.toFixed(words.digits);
    const what = point.own ? '' : ', another stock';
    const stands = standing.has(point.rollId) ? ', stands out from its stock' : '';
    return `Roll ${point.roll}: ${describeCast(axis, point.y, relative)}, ${words.label} ${at}${what}${stands}`;
  }
}
