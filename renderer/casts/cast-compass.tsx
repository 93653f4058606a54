import { median } from '../../shared/domain/statistics/order.ts';

export interface CastCompassProps {
  readonly casts: readonly { readonly id: number; readonly a: number; readonly b: number }[];
  readonly chosen: number;
}

const SIZE = 132;
const RADIUS = 52;
/** Smallest reach of the rings, in a* and b*. Our choice. */
const LEAST_REACH = 4;

/** Casts of rolls on the plane of a* and b* about their middle; the one in question stands out. For the eye only. */
export function CastCompass({ casts, chosen }: CastCompassProps) {
  const middle = { a: median(casts.map(({ a }) => a)), b: median(casts.map(({ b }) => b)) };
  const reach = Math.max(LEAST_REACH, ...casts.map(({ a, b }) => Math.hypot(a - middle.a, b - middle.b)));
  const own = casts.find(({ id }) => id === chosen);
  const x = (a: number) => SIZE / 2 + (RADIUS * (a - middle.a)) / reach;
  const y = (b: number) => SIZE / 2 - (RADIUS * (b - middle.b)) / reach;
  return (
    <svg
      className="cast-compass"
      viewBox={`0 0 ${SIZE} ${SIZE}`}
      width={SIZE}
      height={SIZE}
      aria-hidden="true"
    >
      <circle cx={SIZE / 2} cy={SIZE / 2} r={RADIUS} />
      <circle cx={SIZE / 2} cy={SIZE / 2} r={RADIUS / 2} />
      <path
        d={`M${SIZE / 2 - RADIUS} ${SIZE / 2}h${2 * RADIUS}M${SIZE / 2} ${SIZE / 2 - RADIUS}v${2 * RADIUS}`}
      />
      {casts.map(({ id, a, b }) => (
        <circle key={id} cx={x(a)} cy={y(b)} r="2.5" className="cast-compass-dot" />
      ))}
      {own === undefined ? null : <circle cx={x(own.a)} cy={y(own.b)} r="4.5" className="scatter-chosen" />}
      <text x={SIZE / 2} y="10" textAnchor="middle">
        yellow
      </text>
      <text x={SIZE / 2} y={SIZE - 2} textAnchor="middle">
        blue
      </text>
      <text x={-SIZE / 2} y="10" textAnchor="middle" transform="rotate(-90)">
        green
      </text>
      <text x={-SIZE / 2} y={SIZE - 3} textAnchor="middle" transform="rotate(-90)">
        magenta
      </text>
    </svg>
  );
}
