import { formatDuration } from '../../shared/units/duration.ts';
import './temperature-chart.css';

export interface TemperatureChartProps {
  /** Length of the time axis, seconds. */
  readonly seconds: number;
  readonly aimC: number | null;
  readonly lowC: number | null;
  readonly highC: number | null;
  /** Seconds from pouring in, °C. */
  readonly readings: readonly { readonly atSeconds: number; readonly celsius: number }[];
  readonly widthPx: number;
  readonly heightPx: number;
}

const LEFT = 46;
const FOOT = 26;
const HEAD = 8;
const RIGHT = 10;

/** What is shown to either side of what was meant and measured, °C. Our choice. */
const LEAST_REACH_C = 0.6;

/** Round steps of a temperature axis, °C. */
const STEPS_C = [0.2, 0.4, 0.5, 1, 2, 5, 10, 20];

/** Temperatures read during a step, with the band that was allowed. */
export function TemperatureChart(props: TemperatureChartProps) {
  const { seconds, aimC, lowC, highC, readings, widthPx, heightPx } = props;
  const known = [aimC, lowC, highC, ...readings.map((reading) => reading.celsius)].flatMap(
    (value) => value ?? [],
  );
  if (known.length === 0) return null;
  const bottomC = Math.min(...known) - LEAST_REACH_C / 2;
  const topC = Math.max(...known) + LEAST_REACH_C / 2;
  const last = Math.max(seconds, ...readings.map((reading) => reading.atSeconds), 1);
  const x = (at: number) => LEFT + ((widthPx - LEFT - RIGHT) * Math.max(0, at)) / last;
  const y = (celsius: number) => HEAD + ((heightPx - HEAD - FOOT) * (topC - celsius)) / (topC - bottomC);
  const step = STEPS_C.find((size) => (topC - bottomC) / size <= 5) ?? 50;
  const first = Math.ceil(bottomC / step);
  const ticks = Array.from(
    { length: Math.floor(topC / step) - first + 1 },
    (_tick, at) => (first + at) * step,
  );
  const points = readings.toSorted((a, b) => a.atSeconds - b.atSeconds);
  const band = lowC !== null && highC !== null ? { top: y(highC), height: y(lowC) - y(highC) } : null;
  return (
    <svg
      className="temperature-chart"
      role="img"
      aria-label={describe(props)}
      viewBox={`0 0 ${widthPx} ${heightPx}`}
      width={widthPx}
      height={heightPx}
    >
      {ticks.map((tick) => (
        <g key={tick}>
          <path d={`M${LEFT} ${y(tick)}H${widthPx - RIGHT}`} className="temperature-grid" />
          <text x={LEFT - 8} y={y(tick) + 5} textAnchor="end">
            {tick.toFixed(1)}
          </text>
        </g>
      ))}
      {band === null ? null : (
        <rect
          x={LEFT}
          width={widthPx - LEFT - RIGHT}
          y={band.top}
          height={Math.max(band.height, 1)}
          className="temperature-band"
        />
      )}
      {aimC === null ? null : (
        <path d={`M${LEFT} ${y(aimC)}H${widthPx - RIGHT}`} className="temperature-aim" />
      )}
      <path
        d={points
          .map((point, at) => `${at === 0 ? 'M' : 'L'}${x(point.atSeconds)} ${y(point.celsius)}`)
          .join('')}
        className="temperature-course"
      />
      {points.map((point, at) => (
        <circle
          key={`${point.atSeconds}-${point.celsius}`}
          cx={x(point.atSeconds)}
          cy={y(point.celsius)}
          r={at === points.length - 1 ? 7 : 4}
          className={at === points.length - 1 ? 'temperature-last' : 'temperature-point'}
        />
      ))}
      <text x={LEFT} y={heightPx - 4}>
        0:00
      </text>
      <text x={widthPx - RIGHT} y={heightPx - 4} textAnchor="end">
        {formatDuration(last)}
      </text>
    </svg>
  );
}

function describe({ readings, aimC, lowC, highC }: TemperatureChartProps): string {
  const meant =
    aimC !== null
      ? `meant ${aimC.toFixed(1)} °C`
      : lowC !== null && highC !== null
        ? `meant ${lowC.toFixed(1)} to ${highC.toFixed(1)} °C`
        : 'nothing meant';
  if (readings.length === 0) return `Nothing measured yet, ${meant}`;
  const words = readings.map(
    (reading) => `${reading.celsius.toFixed(1)} at ${formatDuration(reading.atSeconds)}`,
  );
  return `Measured ${words.join(', ')}, ${meant}`;
}
