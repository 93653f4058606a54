import './page-small.css';

/** A piece of film in a row, as fractions of the row's length. */
export interface SmallStrip {
  readonly row: number;
  readonly from: number;
  readonly to: number;
}

export interface PageSmallProps {
  readonly rows: number;
  readonly strips: readonly SmallStrip[];
  /** The row with light on it, from 1. */
  readonly litRow?: number | null;
  /** The place in that row, as fractions of its length, in pencil. */
  readonly litPlace?: { readonly from: number; readonly to: number } | null;
  /** A page that is not there yet: dashed. */
  readonly absent?: boolean;
  /** For a page that stands alone: `Page 31, row 5`. Without it the page is only for the eye. */
  readonly label?: string;
  readonly widthPx?: number;
}

const HIGH = 36;
const WIDE = 34;
const LEFT = 5;
const LONG = 26;
const TOP = 3;
/** The filing holes, at a third and two thirds. */
const HOLES = [0.3, 0.7].map((part) => `M2 ${HIGH * part - 0.6}h1.2v1.2h-1.2z`).join('');

function round(px: number): number {
  return Math.round(px * 100) / 100;
}

/** A page in small: its rows as bars, one of them lit, one place in pencil. It stands wherever a place is named. */
export function PageSmall(props: PageSmallProps) {
  const { rows, strips, litRow = null, litPlace = null, absent = false, label, widthPx = WIDE } = props;
  const step = (HIGH - 2 * TOP) / Math.max(1, rows);
  const high = Math.max(1, step - (rows > 8 ? 0.6 : 1.2));
  const y = (row: number) => TOP + (row - 1) * step + (step - high) / 2;
  // One path for all bars: a binder shows hundreds of pages at once.
  const bars = (some: readonly SmallStrip[]) =>
    some
      .map(({ row, from, to }) => {
        const wide = LONG * Math.max(0.03, Math.min(1, to) - from);
        return `M${round(LEFT + LONG * from)} ${round(y(row))}h${round(wide)}v${round(high)}h${round(-wide)}z`;
      })
      .join('');
  return (
    <svg
      className={absent ? 'page-small page-small-absent' : 'page-small'}
      viewBox={`0 0 ${WIDE} ${HIGH}`}
      width={widthPx}
      height={(widthPx * HIGH) / WIDE}
      {...(label === undefined ? { 'aria-hidden': true } : { role: 'img', 'aria-label': label })}
    >
      <rect x="0.5" y="0.5" width={WIDE - 1} height={HIGH - 1} rx="1.5" className="page-small-page" />
      {absent ? null : <path d={HOLES} className="page-small-hole" />}
      <path d={bars(strips.filter(({ row }) => row !== litRow))} className="page-small-strip" />
      {litRow === null ? null : (
        <path d={bars(strips.filter(({ row }) => row === litRow))} className="page-small-lit" />
      )}
      {litRow === null || litPlace === null ? null : (
        <rect
          x={LEFT + LONG * litPlace.from}
          y={y(litRow) - 0.6}
          width={Math.max(2.5, LONG * (litPlace.to - litPlace.from))}
          height={high + 1.2}
          className="page-small-place"
        />
      )}
    </svg>
  );
}
