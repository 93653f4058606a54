import { useRef } from 'react';
import type { Output } from '../../shared/api/contract.ts';
import { Button } from '../ui/button.tsx';
import { Ruler } from './ruler.tsx';
import { SheetSvg } from './sheet-svg.tsx';
import type { Overhang } from './use-overhang.ts';
import { useRoom } from './use-room.ts';

export interface PaperProps {
  readonly sheet: Output<'sheets.layOut'> | undefined;
  readonly overhang: Overhang | null;
  /** Which page is shown, from 1. */
  readonly page: number;
  readonly onPage: (page: number) => void;
  readonly unit: 'mm' | 'in';
  readonly label: string;
  readonly onUnreadable: (frameKey: string) => void;
}

/** Room beside the paper for the ruler, px. */
const RULER_PX = 40;
/** Pictures wider than this on the screen are drawn from large previews, px. Our choice: about the size of a small one. */
const LARGE_FROM_PX = 360;

/** The paper on the desk with rulers along it, one page at a time. */
export function Paper({ sheet, overhang, page, onPage, unit, label, onUnreadable }: PaperProps) {
  const desk = useRef<HTMLDivElement>(null);
  const room = useRoom(desk);
  const pages = sheet?.layout.pages ?? [];
  const at = Math.min(Math.max(1, page), Math.max(1, pages.length));
  const shown = overhang?.page ?? pages[at - 1];
  const paper = overhang?.paper ?? {
    widthMm: shown?.widthMm ?? 210,
    heightMm: shown?.heightMm ?? 297,
  };
  const across = Math.max(shown?.widthMm ?? 0, paper.widthMm);
  const down = Math.max(shown?.heightMm ?? 0, paper.heightMm);
  const roomPx = { width: room?.width ?? 900, height: room?.height ?? 740 };
  const below = (overhang?.bottomMm ?? 0) > 0 ? 28 : 4;
  const beside = (overhang?.rightMm ?? 0) > 0 ? 120 : 8;
  const pxPerMm = Math.max(
    0.5,
    Math.min((roomPx.width - RULER_PX - beside) / across, (roomPx.height - RULER_PX - below) / down),
  );
  const widest = Math.max(0, ...(sheet?.frames ?? []).map(({ widthMm }) => widthMm)) * pxPerMm;
  return (
    <section className="paper-desk" aria-label="Preview">
      {pages.length > 1 ? <Pages count={pages.length} at={at} onPage={onPage} /> : null}
      <div className="paper-room" ref={desk}>
        {shown ? (
          <div
            className="paper-ruled"
            style={{ width: across * pxPerMm + RULER_PX, height: down * pxPerMm + RULER_PX }}
          >
            <Ruler lengthMm={paper.widthMm} pxPerMm={pxPerMm} unit={unit} along="top" />
            <Ruler lengthMm={paper.heightMm} pxPerMm={pxPerMm} unit={unit} along="left" />
            <div
              className={overhang ? 'paper-sheet paper-too-small' : 'paper-sheet'}
              style={{ width: shown.widthMm * pxPerMm, height: shown.heightMm * pxPerMm }}
            >
              <SheetSvg
                page={shown}
                pictures={widest * devicePixelRatio > LARGE_FROM_PX ? 'large' : 'small'}
                label={`Contact sheet of ${label}${pages.length > 1 ? `, page ${at} of ${pages.length}` : ''}`}
                onUnreadable={onUnreadable}
              />
              {overhang ? <Beyond overhang={overhang} pxPerMm={pxPerMm} /> : null}
            </div>
          </div>
        ) : null}
      </div>
    </section>
  );
}

function Pages({
  count,
  at,
  onPage,
}: {
  readonly count: number;
  readonly at: number;
  readonly onPage: (page: number) => void;
}) {
  return (
    <nav className="paper-pages" aria-label="Pages of the sheet">
      <Button
        name="The page before"
        onPress={() => onPage(at - 1)}
        {...(at === 1 ? { unavailable: '' } : {})}
      >
        ‹
      </Button>
      <span className="numbers" role="status">
        Page {at} of {count}
      </span>
      <Button
        name="The next page"
        onPress={() => onPage(at + 1)}
        {...(at === count ? { unavailable: '' } : {})}
      >
        ›
      </Button>
    </nav>
  );
}

/** What lies beyond the paper: hatched, with the real edge and what is missing in pencil. */
function Beyond({ overhang, pxPerMm }: { readonly overhang: Overhang; readonly pxPerMm: number }) {
  const { paper, rightMm, bottomMm } = overhang;
  // By how much is known only where one side alone is too short.
  const both = rightMm > 0 && bottomMm > 0;
  return (
    <>
      {rightMm > 0 ? (
        <>
          <div className="paper-beyond paper-beyond-right" style={{ left: paper.widthMm * pxPerMm }} />
          <p className="paper-missing paper-missing-right">{describeMissing(both ? null : rightMm)}</p>
        </>
      ) : null}
      {bottomMm > 0 ? (
        <>
          <div className="paper-beyond paper-beyond-bottom" style={{ top: paper.heightMm * pxPerMm }} />
          <p className="paper-missing paper-missing-bottom">{describeMissing(both ? null : bottomMm)}</p>
        </>
      ) : null}
    </>
  );
}

function describeMissing(mm: number | null): string {
  if (mm === null) return 'This falls off the paper';
  return `${(Math.ceil(mm * 10 - 1e-6) / 10).toFixed(1)} mm fall off the paper`;
}
