import { useMemo, useRef, type PointerEvent, type ReactNode } from 'react';
import type { Page } from '../../shared/api/methods/filing-methods.ts';
import type { Frame, Roll } from '../../shared/api/methods/film-methods.ts';
import { drawnFrame } from '../film/drawn-frame.ts';
import { frameGeometry } from '../film/film-geometry.ts';
import { filmScale, wholePixelScale } from '../film/film-scale.ts';
import { FrameGrid, frameOf } from '../film/frame-grid.tsx';
import { railsOf, type FrameSelection } from '../film/frame-selection.ts';
import { describeStrip, lyingStrip, type LyingStrip } from '../film/lying-strip.ts';
import { fitPage, HEADING_PX, hasSinglePockets, WELD_MM } from '../film/page-geometry.ts';
import { SleevePage } from '../film/sleeve-page.tsx';
import { StripInPocket } from '../film/strip-in-pocket.tsx';
import type { Picking } from '../ui/grid-list.tsx';
import { looseRows, rowsOfPage } from './film-rows.ts';
import { Ledger } from './ledger.tsx';
import { binderWords } from './roll-words.ts';
import './film-spread.css';

interface SpreadProps {
  readonly roll: Roll;
  readonly widthPx: number;
  readonly selection: FrameSelection;
  readonly onPick: (id: number, how: Picking) => void;
  readonly onOpen: (id: number) => void;
  readonly heading: ReactNode;
}

/** Film is not drawn larger than this on a page, px per mm: beyond it a page no longer goes into a window. */
const MOST_PX_PER_MM = 4.4;
/** Of the ledger at least, px, and its share of the spread. */
const LEDGER = { leastPx: 250, share: 0.3 } as const;

function pageWidthPx(widthPx: number): number {
  return widthPx - Math.max(LEDGER.leastPx, Math.round(LEDGER.share * widthPx));
}

/** A page that the roll lies in, and the notes beside it. */
export function PageSpread(props: SpreadProps & { readonly page: Page; readonly frames: readonly Frame[] }) {
  const { roll, page, frames, widthPx, selection, onPick, onOpen, heading } = props;
  const known = useMemo(() => new Map(frames.map((frame) => [frame.id, frame])), [frames]);
  const stock = roll.stock?.name;
  const strips = useMemo(
    () =>
      page.strips.map((strip) =>
        lyingStrip(
          strip,
          known,
          stock === undefined || strip.rollId !== roll.id ? [strip.roll] : [stock, strip.roll],
        ),
      ),
    [page, known, stock, roll.id],
  );
  const rows = useMemo(() => rowsOfPage(page, roll.id, known), [page, roll.id, known]);
  const fit = fitPage(page.layout, { widthPx: pageWidthPx(widthPx), heightPx: null });
  const pxPerMm = Math.min(fit, wholePixelScale(MOST_PX_PER_MM));
  const label = `${binderWords(page.binder)}, page ${page.number}`;
  return (
    <Stretching onPick={onPick} className="film-spread">
      <SleevePage
        label={label}
        layout={page.layout}
        strips={strips}
        pxPerMm={pxPerMm}
        heading={heading}
        selection={selection}
        onPick={onPick}
        onOpen={onOpen}
      />
      <Ledger
        label={label}
        rows={rows}
        places={hasSinglePockets(page.layout) ? Math.max(1, page.layout.positions) : page.layout.positions}
        headPx={HEADING_PX + WELD_MM * pxPerMm}
        stripPx={page.layout.pocketHeightMm * pxPerMm}
        gapPx={WELD_MM * pxPerMm}
        picked={selection.picked}
        onPick={onPick}
        onOpen={onOpen}
      />
    </Stretching>
  );
}

/** Between two strips on the desk, mm. */
const LOOSE_GAP_MM = 3;
/** From the edge of the desk's sheet to its strips, px. */
const LOOSE_EDGE_PX = 16;

/** Frames that lie in no page, as strips on the desk, and the notes beside them. */
export function LooseSpread(
  props: SpreadProps & { readonly label: string; readonly frames: readonly Frame[] },
) {
  const { roll, label, frames, widthPx, selection, onPick, onOpen, heading } = props;
  const rows = useMemo(() => looseRows(frames, roll.filmFormat), [frames, roll.filmFormat]);
  const strips = useMemo(() => rows.map((row, index) => looseStrip(roll, row.frames, index)), [rows, roll]);
  const longestMm = Math.max(
    1,
    ...strips.map((strip) =>
      strip.frames.reduce(
        (sum, { frameFormat }) => sum + frameGeometry(frameFormat, roll.filmFormat).cellMm,
        0,
      ),
    ),
  );
  const room = pageWidthPx(widthPx) - 2 * LOOSE_EDGE_PX - 2;
  const pxPerMm = wholePixelScale(Math.min(room / Math.max(longestMm, 200), MOST_PX_PER_MM));
  const { filmMm } = frameGeometry(roll.frameFormat, roll.filmFormat);
  const ids = rows.map((row) => row.frames.map(({ id }) => id));
  const rails = railsOf(ids, selection.picked);
  const order = ids.flat();
  const active = selection.active;
  const tabStop = active !== null && order.includes(active) ? active : (order[0] ?? null);
  const stripPx = filmMm * pxPerMm;
  return (
    <Stretching onPick={onPick} className="film-spread film-spread-loose">
      <div className="loose-desk" style={{ ...filmScale(pxPerMm), width: pageWidthPx(widthPx) }}>
        <div className="loose-heading" style={{ height: HEADING_PX }}>
          {heading}
        </div>
        <FrameGrid
          label={label}
          rows={ids}
          active={active}
          onPick={onPick}
          onOpen={onOpen}
          className="loose-rows"
        >
          {strips.map((strip, index) => (
            <div
              key={strip.id}
              role="row"
              aria-rowindex={index + 1}
              aria-label={describeStrip(strip)}
              className="loose-row"
              style={{ marginBottom: LOOSE_GAP_MM * pxPerMm }}
            >
              <StripInPocket
                strip={strip}
                pxPerMm={pxPerMm}
                selection={selection}
                tabStop={tabStop}
                rails={rails[index] ?? []}
                startColumn={0}
                dimmed={false}
                lit={false}
                ringedId={null}
                pickable
              />
            </div>
          ))}
        </FrameGrid>
      </div>
      <Ledger
        label={label}
        rows={rows}
        places={Math.max(1, ...rows.map((row) => row.frames.length))}
        headPx={HEADING_PX + 8}
        stripPx={stripPx}
        gapPx={LOOSE_GAP_MM * pxPerMm}
        picked={selection.picked}
        onPick={onPick}
        onOpen={onOpen}
      />
    </Stretching>
  );
}

function looseStrip(roll: Roll, frames: readonly Frame[], index: number): LyingStrip {
  return {
    id: index + 1,
    roll: roll.number,
    filmFormat: roll.filmFormat,
    row: index + 1,
    position: 1,
    frames: frames.map((frame) => drawnFrame(frame, roll.filmFormat)),
    edgeTexts: roll.stock ? [roll.stock.name, roll.number] : [roll.number],
  };
}

interface StretchingProps {
  readonly onPick: (id: number, how: Picking) => void;
  readonly className: string;
  readonly children: ReactNode;
}

/** Film and notes over which a run is stretched by dragging. */
function Stretching({ onPick, className, children }: StretchingProps) {
  const from = useRef<number | null>(null);
  const last = useRef<number | null>(null);

  function grab(event: PointerEvent): void {
    const plain = event.button === 0 && event.pointerType !== 'touch';
    from.current =
      plain && !event.shiftKey && !event.ctrlKey && !event.metaKey ? frameOf(event.target) : null;
    last.current = from.current;
  }
  function drag(event: PointerEvent): void {
    if (from.current === null || event.buttons !== 1) return;
    const over = frameOf(event.target);
    if (over === null || over === last.current) return;
    if (last.current === from.current) onPick(from.current, 'only');
    last.current = over;
    onPick(over, 'to');
  }
  return (
    // The frames inside carry the focus and the keys.
    // oxlint-disable-next-line jsx-a11y/no-static-element-interactions
    <div
      className={className}
      onPointerDown={grab}
      onPointerMove={drag}
      onPointerUp={() => {
        from.current = null;
      }}
    >
      {children}
    </div>
  );
}
