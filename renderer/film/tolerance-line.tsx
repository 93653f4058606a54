import './tolerance-line.css';

export interface ToleranceLineProps {
  /** In words, with the figures: `Developer 37.2 °C, 0.6 under the 37.8 it was meant for`. */
  readonly label: string;
  /** What was meant, and by how much it may differ to either side, all in one unit. */
  readonly meant: number;
  readonly eitherWay: number;
  /** What was measured, or null when nothing was. */
  readonly measured: number | null;
  /** How much is shown to either side of what was meant; widened when the measured value lies beyond. */
  readonly reach?: number;
  readonly step?: number;
  readonly widthPx?: number;
}

const HIGH = 20;

/** A scale with the band that was allowed and a pencil pointer at what was measured. */
export function ToleranceLine(props: ToleranceLineProps) {
  const { label, meant, eitherWay, measured, widthPx = 180 } = props;
  const off = measured === null ? 0 : Math.abs(measured - meant);
  const reach = Math.max(props.reach ?? 5 * eitherWay, 1.2 * off, 1.5 * eitherWay);
  const step = props.step ?? niceStep(reach);
  const x = (value: number) => widthPx * (0.5 + (value - meant) / (2 * reach));
  const count = Math.floor(reach / step);
  const ticks = Array.from({ length: 2 * count + 1 }, (_, index) => meant + (index - count) * step);
  return (
    <svg
      className="tolerance-line"
      role="img"
      aria-label={label}
      viewBox={`0 0 ${widthPx} ${HIGH}`}
      width={widthPx}
      height={HIGH}
    >
      <rect
        x={x(meant - eitherWay)}
        y="1"
        width={x(meant + eitherWay) - x(meant - eitherWay)}
        height="10"
        className="tolerance-band"
      />
      <path d={`M0 11.5H${widthPx}`} className="tolerance-rule" />
      {ticks.map((tick) => (
        <path key={tick} d={`M${x(tick)} 8v4`} className="tolerance-tick" />
      ))}
      <path d={`M${x(meant)} 1v11`} className="tolerance-meant" />
      {measured === null ? null : (
        <path d={`M${x(measured) - 1} 2h2v10h3l-4 6-4-6h3z`} className="tolerance-pointer" />
      )}
    </svg>
  );
}

/** A round step that puts about four ticks on each side. */
function niceStep(reach: number): number {
  const rough = reach / 4;
  const power = 10 ** Math.floor(Math.log10(rough));
  return ([1, 2, 5].find((digit) => digit * power >= rough) ?? 10) * power;
}
