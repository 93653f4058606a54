import { useId } from 'react';
import type { Groups } from '../../shared/api/methods/causes-methods.ts';
import type { LogKind, Measure, Per } from '../../shared/domain/colour/logged-roll.ts';
import { countOf, KIND_WORDS, MEASURE_WORDS } from '../../shared/text/describe-trend.ts';
import { PencilGrain } from '../film/pencil-marks.tsx';
import { describeMeasure } from './cast-axes.ts';
import type { CastPoints } from './cast-points.ts';
import { PlotDots } from './plot-dots.tsx';
import { acrossPx, PLOT, UpwardAxis, upwardPx, upwardScale } from './plot-upward.tsx';
import './scatter-plot.css';

export interface StripPlotProps {
  readonly stock: string;
  readonly per: Per;
  readonly measure: Measure;
  readonly kind: LogKind;
  readonly drawn: CastPoints;
  readonly groups: Pick<Groups, 'groups'>;
  readonly chosen: number | null;
  readonly named: ReadonlySet<number>;
  readonly onChoose: (id: number) => void;
}

/** Dots of a strip lie this far apart at most, px, so that those on one height do not hide each other. */
const APART_PX = 11;

/** Names of kinds longer than this are cut on the axis; the list under the plot has them whole. */
const LONGEST = 22;

/** Casts or fog of rolls by what kind the log says they are: one strip a kind, its middle a dashed line. */
export function StripPlot(props: StripPlotProps) {
  const { stock, per, measure, kind, drawn, groups, chosen, named, onChoose } = props;
  const grain = useId();
  const { points, kinds } = drawn;
  const scale = upwardScale(
    measure,
    points.map((point) => point.y),
  );
  const across = { low: -0.5, high: Math.max(kinds.length, 1) - 0.5 };
  const wide = (PLOT.wide - PLOT.left - PLOT.right) / Math.max(kinds.length, 1);
  const label = MEASURE_WORDS[measure].label;
  const placed = points.map((point, at) => ({
    ...point,
    topPx: upwardPx(scale, point.y),
    leftPx: acrossPx(across, point.x) + asideOf(at),
    says: `${per === 'roll' ? 'Roll' : 'Development of'} ${point.name}: ${describeMeasure(measure, point.y)}, ${KIND_WORDS[kind].label} ${kinds[point.x] ?? ''}${point.own ? '' : ', another stock'}${named.has(point.id) ? ', stands out' : ''}`,
  }));
  return (
    <svg
      className="scatter"
      role="group"
      aria-label={`${stock}: ${label} by ${KIND_WORDS[kind].label}, ${countOf(points.filter(({ own }) => own).length, per)}`}
      viewBox={`0 0 ${PLOT.wide} ${PLOT.high}`}
    >
      <PencilGrain id={grain} />
      <UpwardAxis measure={measure} scale={scale} />
      <g aria-hidden="true">
        <path
          d={`M${PLOT.left} ${PLOT.high - PLOT.foot}H${PLOT.wide - PLOT.right}`}
          className="scatter-foot"
        />
        {kinds.map((value, at) => {
          const group = groups.groups.find((each) => each.value === value);
          const left = acrossPx(across, at);
          const reach = Math.min(wide * 0.4, 110);
          return (
            <g key={value}>
              <text x={left} y={PLOT.high - PLOT.foot + 20} textAnchor="middle">
                {value.length > LONGEST ? `${value.slice(0, LONGEST - 1)}…` : value}
              </text>
              <text
                x={left}
                y={PLOT.high - PLOT.foot + 38}
                textAnchor="middle"
                className="scatter-figure scatter-quiet"
              >
                {countOf(group?.count ?? 0, per)}
              </text>
              {group === undefined ? null : (
                <path
                  d={`M${left - reach} ${upwardPx(scale, group.median)}h${2 * reach}`}
                  className="scatter-line"
                />
              )}
            </g>
          );
        })}
      </g>
      <PlotDots points={placed} per={per} chosen={chosen} named={named} grain={grain} onChoose={onChoose} />
    </svg>
  );

  /** How far a dot is moved aside so that the ones near its height in its strip stay apart. */
  function asideOf(at: number): number {
    const own = points[at];
    if (own === undefined) return 0;
    const near = points.filter(
      (other, index) =>
        index < at &&
        other.x === own.x &&
        Math.abs(upwardPx(scale, other.y) - upwardPx(scale, own.y)) < APART_PX,
    ).length;
    const step = Math.min(APART_PX, wide / 12);
    return (near % 2 === 0 ? -1 : 1) * Math.ceil(near / 2) * step;
  }
}
