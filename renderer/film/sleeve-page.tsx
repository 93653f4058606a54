import { useMemo, type ReactNode } from 'react';
import type { LayoutRow } from '../../shared/api/methods/filing-methods.ts';
import type { Picking } from '../ui/grid-list.tsx';
import { frameGeometry, stripLengthMm } from './film-geometry.ts';
import { filmScale } from './film-scale.ts';
import { FrameGrid } from './frame-grid.tsx';
import { NO_FRAMES, railsOf, type FrameSelection } from './frame-selection.ts';
import {
  BOUND_MM,
  FILING_HOLE,
  filingHolesMm,
  hasSinglePockets,
  pageSizeMm,
  rowLengthMm,
  THUMB_MM,
  WELD_MM,
} from './page-geometry.ts';
import { describeStrip, type LyingStrip } from './lying-strip.ts';
import { StripInPocket } from './strip-in-pocket.tsx';
import './sleeve-page.css';

/** A pocket by its row and position, from 1. */
export interface PocketPlace {
  readonly row: number;
  readonly position: number;
}

export interface SleevePageProps {
  /** The name of the page: `Binder 7, page 31`. */
  readonly label: string;
  readonly layout: LayoutRow;
  readonly strips: readonly LyingStrip[];
  readonly pxPerMm: number;
  /** What is written on the strip above the pockets; none draws the page without it. */
  readonly heading?: ReactNode;
  /** Which frames are lit. With `onPick` they can be picked, and rails show the run; without it the page is only looked at. */
  readonly selection?: FrameSelection;
  readonly onPick?: (id: number, how: Picking) => void;
  readonly onOpen?: (id: number) => void;
  /** One pocket with light on it, the rest at a third; and a ring around one of its frames. */
  readonly shown?: { readonly row: number; readonly frameId: number | null };
  /** The strip that is being carried: only its place is left. */
  readonly carriedId?: number | null;
  /** The pocket that a strip would be put into now, and whether it is free. */
  readonly target?: (PocketPlace & { readonly free: boolean }) | null;
  /** Kept with each pocket as `data-page`, so that a pointer finds out where it is. */
  readonly pageId?: number;
}

/**
 * A page of sleeves as it hangs in its binder: bound edge with filing holes, numbered rows, pockets with their strips
 * and the room that is left, welds. Pockets carry `data-page`, `data-row` and `data-position`, strips `data-strip`,
 * frames `data-frame`.
 */
export function SleevePage(props: SleevePageProps) {
  const { label, layout, strips, pxPerMm, heading, onPick, onOpen } = props;
  const selection = props.selection ?? NO_FRAMES;
  const rows = useMemo(() => rowsOf(layout, strips), [layout, strips]);
  const frameRows = useMemo(() => rows.map((row) => row.flatMap(idsOf)), [rows]);
  const pickable = onPick !== undefined;
  const rails = useMemo(
    () => (pickable ? railsOf(frameRows, selection.picked) : []),
    [pickable, frameRows, selection.picked],
  );
  const { widthMm, heightMm } = pageSizeMm(layout);
  const order = frameRows.flat();
  const tabStop =
    selection.active !== null && order.includes(selection.active) ? selection.active : (order[0] ?? null);
  const body = rows.map((lying, index) => (
    <PageRow
      // Rows of a page are places: they have no other name than their number.
      // oxlint-disable-next-line react/no-array-index-key
      key={index}
      page={props}
      row={index + 1}
      strips={lying}
      selection={selection}
      tabStop={tabStop}
      rails={rails[index] ?? []}
    />
  ));
  return (
    <div
      className="sleeve-page"
      style={{ ...filmScale(pxPerMm), '--wide': widthMm, '--bound': BOUND_MM, '--weld-mm': WELD_MM }}
    >
      <FilingHoles heightMm={heightMm} />
      {heading === undefined ? null : <div className="sleeve-heading">{heading}</div>}
      {onPick ? (
        <FrameGrid
          label={label}
          rows={frameRows}
          active={selection.active}
          onPick={onPick}
          onOpen={onOpen}
          className="sleeve-rows"
        >
          {body}
        </FrameGrid>
      ) : (
        <div role="group" aria-label={label} className="sleeve-rows">
          {body}
        </div>
      )}
    </div>
  );
}

function idsOf(strip: LyingStrip): readonly number[] {
  return strip.frames.map((frame) => frame.id);
}

function rowsOf(layout: LayoutRow, strips: readonly LyingStrip[]): readonly (readonly LyingStrip[])[] {
  return Array.from({ length: layout.rows }, (_, index) =>
    strips.filter((strip) => strip.row === index + 1).sort((a, b) => a.position - b.position),
  );
}

function FilingHoles({ heightMm }: { readonly heightMm: number }) {
  return (
    <div className="sleeve-holes" aria-hidden="true">
      {filingHolesMm(heightMm).map((fromTopMm) => (
        <span
          key={fromTopMm}
          style={{
            '--down': fromTopMm / heightMm,
            '--hole-mm': FILING_HOLE.wideMm,
            '--from-edge': FILING_HOLE.fromEdgeMm,
          }}
        />
      ))}
    </div>
  );
}

interface PageRowProps {
  readonly page: SleevePageProps;
  readonly row: number;
  readonly strips: readonly LyingStrip[];
  readonly selection: FrameSelection;
  readonly tabStop: number | null;
  readonly rails: ReturnType<typeof railsOf>[number];
}

function PageRow({ page, row, strips, selection, tabStop, rails }: PageRowProps) {
  const { layout, shown, pxPerMm } = page;
  const single = hasSinglePockets(layout);
  const grid = page.onPick !== undefined;
  const names = strips.map(describeStrip).join('; ');
  const name = `Row ${row}: ${names === '' ? 'empty' : names}`;
  const dark = shown !== undefined && shown.row !== row;
  const places = single ? Array.from({ length: layout.positions }, (_, index) => index + 1) : [1];
  return (
    <div
      className="sleeve-row"
      {...(grid ? { role: 'row', 'aria-rowindex': row } : { role: 'group' })}
      aria-label={name}
    >
      <span className="sleeve-row-number numbers" aria-hidden="true">
        {row}
      </span>
      <div
        className={shown?.row === row ? 'sleeve-pockets sleeve-pockets-shown' : 'sleeve-pockets'}
        style={{ '--long': rowLengthMm(layout) + THUMB_MM, '--high': layout.pocketHeightMm }}
        role="presentation"
      >
        {places.map((position) => {
          const inPocket = single ? strips.filter((strip) => strip.position === position) : strips;
          const target = page.target;
          const aimed = target?.row === row && (!single || target.position === position) ? target : null;
          const before = single
            ? strips
                .filter((strip) => strip.position < position)
                .reduce((sum, { frames }) => sum + frames.length, 0)
            : 0;
          return (
            <div
              key={position}
              className={pocketClass(aimed)}
              role="presentation"
              data-page={page.pageId}
              data-row={row}
              data-position={position}
            >
              {inPocket.map((strip, index) => (
                <div
                  key={strip.id}
                  role="presentation"
                  className={page.carriedId === strip.id ? 'pocket-place pocket-place-left' : 'pocket-place'}
                  style={{ '--start': single ? 0 : gapBeforeMm(strip, inPocket[index - 1]) }}
                >
                  <StripInPocket
                    strip={strip}
                    pxPerMm={pxPerMm}
                    selection={selection}
                    tabStop={tabStop}
                    rails={railsOfStrip(rails, inPocket, index, before)}
                    startColumn={before + framesBefore(inPocket, index)}
                    dimmed={dark}
                    lit={shown?.row === row}
                    ringedId={shown?.row === row ? shown.frameId : null}
                    pickable={grid}
                  />
                </div>
              ))}
              <Room
                layout={layout}
                strips={inPocket}
                single={single}
                hidden={shown !== undefined}
                cell={grid}
              />
            </div>
          );
        })}
      </div>
    </div>
  );
}

function pocketClass(aimed: { readonly free: boolean } | null): string {
  if (aimed === null) return 'pocket';
  return aimed.free ? 'pocket pocket-aimed' : 'pocket pocket-taken';
}

function framesBefore(strips: readonly LyingStrip[], index: number): number {
  return strips.slice(0, index).reduce((sum, strip) => sum + strip.frames.length, 0);
}

/** The rails that lie on one strip of the row. A run over two strips in one pocket is drawn on each. */
function railsOfStrip(
  rails: PageRowProps['rails'],
  strips: readonly LyingStrip[],
  index: number,
  before: number,
): PageRowProps['rails'] {
  const start = before + framesBefore(strips, index);
  const end = start + (strips[index]?.frames.length ?? 0) - 1;
  return rails
    .filter((rail) => rail.from <= end && rail.to >= start)
    .map((rail) => ({
      from: Math.max(rail.from, start),
      to: Math.min(rail.to, end),
      openLeft: rail.openLeft || rail.from < start,
      openRight: rail.openRight || rail.to > end,
    }));
}

/** Free film-length between a strip and what lies left of it, mm: its position counts places of its own frames. */
function gapBeforeMm(strip: LyingStrip, before: LyingStrip | undefined): number {
  const pitch = frameGeometry(strip.frames[0]?.frameFormat ?? '', strip.filmFormat).cellMm;
  const taken = before
    ? (before.position - 1) * frameGeometry(before.frames[0]?.frameFormat ?? '', before.filmFormat).cellMm +
      lengthMm(before)
    : 0;
  return Math.max(0, (strip.position - 1) * pitch - taken);
}

function lengthMm(strip: LyingStrip): number {
  return stripLengthMm(
    strip.filmFormat,
    strip.frames.map((frame) => frame.frameFormat),
  );
}

interface RoomProps {
  readonly layout: LayoutRow;
  readonly strips: readonly LyingStrip[];
  readonly single: boolean;
  readonly hidden: boolean;
  readonly cell: boolean;
}

/** What is left of a pocket, and for how many frames: those of its own strip, or of the page when it is empty. */
function Room({ layout, strips, single, hidden, cell }: RoomProps) {
  const last = strips.at(-1);
  if (single && last) return null;
  const pitch = last
    ? frameGeometry(last.frames.at(-1)?.frameFormat ?? '', last.filmFormat).cellMm
    : layout.pocketLengthMm / (single ? 1 : layout.positions);
  const usedMm = strips.reduce((sum, strip) => sum + lengthMm(strip), 0);
  const frames = Math.floor((layout.pocketLengthMm - usedMm + 1e-6) / pitch);
  const nothing = frames < 1;
  const words = frames === 1 ? 'Room for 1 frame' : `Room for ${frames} frames`;
  if (nothing) return null;
  return (
    <div className="pocket-room" {...(cell ? { role: 'gridcell' } : {})}>
      {hidden ? <span className="unseen">{words}</span> : <span>{words}</span>}
    </div>
  );
}
