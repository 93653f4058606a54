import { useRef, type KeyboardEvent } from 'react';
import type { Per } from '../../shared/domain/colour/logged-roll.ts';
import { PencilLines } from '../film/pencil-marks.tsx';
import { steadyRing } from '../film/pencil-ring.ts';
import { formatRoute } from '../state/route.ts';
import type { CastPoint } from './cast-points.ts';
import { PLOT } from './plot-upward.tsx';

/** A dot where it is drawn, px. */
interface PlacedPoint extends CastPoint {
  readonly leftPx: number;
  readonly topPx: number;
  /** What is read aloud of it. */
  readonly says: string;
}

export interface PlotDotsProps {
  readonly points: readonly PlacedPoint[];
  readonly per: Per;
  /** The one in question, which is ringed. */
  readonly chosen: number | null;
  /** Those that are named. */
  readonly named: ReadonlySet<number>;
  /** The grain of the pencil, by id. */
  readonly grain: string;
  readonly onChoose: (id: number) => void;
}

/** A pointer rests on a dot this long before its roll is taken up, ms. Our choice: passing over is no pointing. */
const REST_MS = 150;

/** The dots of a plot: every one a link to its roll or development; arrows go from dot to dot. */
export function PlotDots({ points, per, chosen, named, grain, onChoose }: PlotDotsProps) {
  const dots = useRef<SVGGElement>(null);
  const resting = useRef<ReturnType<typeof setTimeout> | null>(null);
  const active = Math.max(
    0,
    points.findIndex((point) => point.id === chosen),
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
    onChoose(point.id);
    const next = dots.current?.querySelector(`[data-dot="${point.id}"]`);
    if (next instanceof SVGElement) next.focus();
  }
  function leave(): void {
    if (resting.current !== null) clearTimeout(resting.current);
  }
  function rest(id: number): void {
    leave();
    resting.current = setTimeout(() => onChoose(id), REST_MS);
  }

  return (
    <g ref={dots} onMouseLeave={leave}>
      {points.map((point, at) => {
        const isChosen = point.id === chosen;
        const isRight = point.leftPx > PLOT.wide * 0.8;
        return (
          <a
            key={point.id}
            href={formatRoute({
              view: per === 'roll' ? 'rolls' : 'developments',
              ids: [String(point.id)],
              params: {},
            })}
            data-dot={point.id}
            tabIndex={at === active ? 0 : -1}
            aria-label={point.says}
            className="scatter-roll"
            onFocus={() => onChoose(point.id)}
            onKeyDown={(event) => press(event, at)}
            onMouseEnter={() => rest(point.id)}
            onMouseLeave={leave}
          >
            <circle cx={point.leftPx} cy={point.topPx} r="11" className="scatter-reach" />
            <circle
              cx={point.leftPx}
              cy={point.topPx}
              r={point.own ? 5 : 4.5}
              className={isChosen ? 'scatter-chosen' : point.own ? 'scatter-dot' : 'scatter-other'}
            />
            {isChosen ? (
              <g
                aria-hidden="true"
                transform={`translate(${point.leftPx} ${point.topPx})`}
                className="scatter-ring"
              >
                <PencilLines
                  lines={steadyRing({ xMm: 0, yMm: 0, acrossMm: 20 }, String(point.id))}
                  grain={grain}
                />
              </g>
            ) : null}
            <text
              aria-hidden="true"
              className={isChosen || named.has(point.id) ? 'scatter-name' : 'scatter-name scatter-hint'}
              x={point.leftPx + (isRight ? -1 : 1) * (isChosen ? 28 : 11)}
              y={point.topPx + 5}
              textAnchor={isRight ? 'end' : 'start'}
            >
              {point.name}
            </text>
          </a>
        );
      })}
    </g>
  );
}
