import { useMemo } from 'react';
import type { Filed, LayoutRow, Page } from '../../shared/api/methods/filing-methods.ts';
import type { Frame } from '../../shared/api/methods/film-methods.ts';
import { drawnFrame, type DrawnFrame } from '../film/drawn-frame.ts';
import { lyingStrip, type LyingStrip } from '../film/lying-strip.ts';
import { SleevePage } from '../film/sleeve-page.tsx';
import { fitPage } from '../film/page-geometry.ts';

export interface ProposedPagesProps {
  readonly proposal: Filed;
  readonly layout: LayoutRow;
  readonly roll: {
    readonly id: number;
    readonly number: string;
    readonly filmFormat: string;
    readonly frameFormat: string;
  };
  /** The roll's frames, as far as they are noted. */
  readonly frames: readonly Frame[];
  /** The pages that hang in the binder already. */
  readonly pages: readonly Page[];
}

/** How wide a page is drawn, px: one alone, or two beside each other. */
const PAGE_PX = { alone: 560, beside: 330 } as const;

/** A page alone is not drawn higher than this, px, so that it is seen whole on a small screen. */
const ROOM_PX = 560;

/** The pages as they would be: what lies there in the dark, the roll in the light. */
export function ProposedPages({ proposal, layout, roll, frames, pages }: ProposedPagesProps) {
  const drawn = useMemo(() => stripsByPage(proposal, roll, frames), [proposal, roll, frames]);
  const picked = useMemo(
    () =>
      new Set(
        [...drawn.values()].flatMap((strips) => strips.flatMap((strip) => strip.frames.map(({ id }) => id))),
      ),
    [drawn],
  );
  const pxPerMm = fitPage(layout, {
    widthPx: drawn.size === 1 ? PAGE_PX.alone : PAGE_PX.beside,
    heightPx: drawn.size === 1 ? ROOM_PX : null,
  });
  return (
    <ul className="proposed-pages">
      {[...drawn].map(([number, strips]) => {
        const there = pages.find((page) => page.number === number);
        const others = (there?.strips ?? []).filter(({ rollId }) => rollId !== roll.id);
        return (
          <li key={number}>
            <SleevePage
              label={`Page ${number} as proposed`}
              layout={layout}
              strips={[...others.map((strip) => lyingStrip(strip, NOTHING_KNOWN, [])), ...strips]}
              pxPerMm={pxPerMm}
              selection={{ active: null, anchor: null, picked }}
              heading={
                <div className="page-heading">
                  <h3 className="numbers">Page {number}</h3>
                  <span className="page-heading-more">{there ? 'hangs there already' : 'a new page'}</span>
                </div>
              }
            />
          </li>
        );
      })}
    </ul>
  );
}

const NOTHING_KNOWN = new Map<number, never>();

/** The proposed strips by the number of their page. Frames that are not noted yet get ids below nought. */
function stripsByPage(
  proposal: Filed,
  roll: ProposedPagesProps['roll'],
  frames: readonly Frame[],
): ReadonlyMap<number, readonly LyingStrip[]> {
  const known = new Map(frames.map((frame) => [frame.id, frame]));
  const found = new Map<number, LyingStrip[]>();
  proposal.placements.forEach((placement, index) => {
    const whole = known.get(placement.frameId ?? 0);
    const frame: DrawnFrame = whole
      ? drawnFrame(whole, roll.filmFormat)
      : { ...UNKNOWN_FRAME, id: -1 - index, label: placement.frame, frameFormat: roll.frameFormat };
    const strips = found.get(placement.page) ?? [];
    found.set(placement.page, strips);
    const last = strips.at(-1);
    const follows = last?.row === placement.row && last.position + last.frames.length === placement.position;
    if (last && follows) strips[strips.length - 1] = { ...last, frames: [...last.frames, frame] };
    else {
      const { row, position } = placement;
      strips.push({
        id: -1 - index,
        roll: roll.number,
        filmFormat: roll.filmFormat,
        row,
        position,
        frames: [frame],
        edgeTexts: [],
      });
    }
  });
  return found;
}

const UNKNOWN_FRAME = { picture: null, marks: [], faults: [], caption: null, scans: 0 } as const;
