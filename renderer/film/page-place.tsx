import { useMemo } from 'react';
import type { Page } from '../../shared/api/methods/filing-methods.ts';
import type { Frame } from '../../shared/api/methods/film-methods.ts';
import type { Place } from '../../shared/api/values.ts';
import { describePlace, ordinal, shortBinder } from '../../shared/text/place-words.ts';
import { lyingStrip } from './lying-strip.ts';
import { fitPage } from './page-geometry.ts';
import { SleevePage } from './sleeve-page.tsx';
import './page-place.css';

export interface PagePlaceProps {
  /** Undefined while it is on its way: the address is there at once. */
  readonly page: Page | undefined;
  readonly lies: Place;
  readonly frameId: number;
  /** The page goes into so many pixels. */
  readonly room: { readonly widthPx: number; readonly heightPx: number };
}

const NO_FRAMES: ReadonlyMap<number, Frame> = new Map();

/** Where a frame lies: its page with one pocket in the light and a ring around the frame, the address in large figures. */
export function PagePlace({ page, lies, frameId, room }: PagePlaceProps) {
  const strips = useMemo(() => (page?.strips ?? []).map((strip) => lyingStrip(strip, NO_FRAMES, [])), [page]);
  const pxPerMm = page ? fitPage(page.layout, room, 0) : 1;
  return (
    <div className="page-place" style={{ '--fit': pxPerMm }}>
      <div className="page-place-page">
        {page ? (
          <SleevePage
            label={describePlace(lies)}
            layout={page.layout}
            strips={strips}
            pxPerMm={pxPerMm}
            shown={{ row: lies.row, frameId }}
          />
        ) : null}
      </div>
      <dl className="page-place-address">
        <dt>Binder</dt>
        <dd>{shortBinder(lies.binder)}</dd>
        <dt>Page</dt>
        <dd>{lies.page}</dd>
        <dt>Row</dt>
        <dd>{lies.row}</dd>
        <dt>From the left</dt>
        <dd>{ordinal(lies.position)}</dd>
      </dl>
    </div>
  );
}
