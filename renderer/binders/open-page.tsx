import { useEffect, useRef, useState, type KeyboardEvent } from 'react';
import type { Page } from '../../shared/api/methods/filing-methods.ts';
import { FilmStrip } from '../film/film-strip.tsx';
import { NO_FRAMES, pickFrame, type FrameSelection } from '../film/frame-selection.ts';
import { describeStrip, lyingStrip, type LyingStrip } from '../film/lying-strip.ts';
import { SleevePage } from '../film/sleeve-page.tsx';
import { useViewState } from '../state/view-state.tsx';
import { Button } from '../ui/button.tsx';
import { Keys } from '../ui/keys.tsx';
import { warnOfMaterial } from './page-material.ts';
import { binderWords, fullnessWords } from './page-words.ts';
import type { Carried, Carrying } from './use-carrying.ts';
import './open-page.css';

export interface OpenPageProps {
  readonly page: Page;
  readonly pages: readonly Page[];
  readonly strips: readonly LyingStrip[];
  readonly pxPerMm: number;
  readonly carrying: Carrying;
  /** The frame that was asked for, to begin at. */
  readonly startAt: number | null;
  readonly onChange: () => void;
  readonly onRemove: () => void;
}

/** The page that is open, with its strips: looked through, opened frame by frame, and laid anew. */
export function OpenPage(props: OpenPageProps) {
  const { page, pages, strips, pxPerMm, carrying, startAt } = props;
  const viewState = useViewState();
  const around = useRef<HTMLDivElement>(null);
  const [begun, setBegun] = useState<number | null>(null);
  const [selection, setSelection] = useState<FrameSelection>(NO_FRAMES);
  if (begun !== startAt) {
    setBegun(startAt);
    if (startAt !== null) setSelection(pickFrame(NO_FRAMES, [startAt], startAt, 'only'));
  }
  const { carried } = carrying;
  const order = strips.flatMap((strip) => strip.frames.map(({ id }) => id));
  useFocusAfterCarrying(around, carrying, page);

  function turnPage(way: 1 | -1): Page | null {
    const next = pages[pages.findIndex(({ id }) => id === page.id) + way];
    if (!next) return null;
    viewState.go({ view: 'binders', ids: [next.binderId, next.id] });
    return next;
  }
  function openFrame(id: number): void {
    const strip = page.strips.find(({ frames }) => frames.some((frame) => frame.id === id));
    if (strip) viewState.go({ view: 'rolls', ids: [strip.rollId], params: { frame: String(id) } });
  }
  function pressFirst(event: KeyboardEvent): void {
    if (carrying.press(event, page, turnPage)) event.stopPropagation();
    else if (event.key === 'Escape' && carried) carrying.leave();
  }
  function press(event: KeyboardEvent): void {
    if (event.ctrlKey || event.metaKey || event.altKey || event.defaultPrevented) return;
    if (event.key === 'PageDown' || event.key === 'PageUp') turnPage(event.key === 'PageDown' ? 1 : -1);
    else if (event.key.toLowerCase() === 'm') takeUp();
    else if (event.key.toLowerCase() === 'i' && selection.active !== null)
      viewState.go({ view: 'card', ids: [selection.active] });
    else return;
    event.preventDefault();
  }
  function takeUp(): void {
    const at = selection.active ?? order[0] ?? null;
    const strip = page.strips.find(({ frames }) => frames.some(({ id }) => id === at));
    if (!strip) return;
    carrying.takeUp(page, strip);
    around.current?.focus();
  }

  const target =
    carried?.over?.pageId === page.id
      ? { row: carried.over.row, position: carried.over.position, free: carried.over.obstacle === null }
      : null;
  const name = `${binderWords(page.binder)}, page ${page.number}`;
  return (
    // The strips inside are taken up and put down; their frames carry the focus.
    // oxlint-disable-next-line jsx-a11y/no-static-element-interactions, jsx-a11y/no-noninteractive-element-interactions
    <div
      ref={around}
      role="group"
      aria-label={carried ? `Carrying ${describeStrip(carried.strip)}` : name}
      aria-busy={carrying.pending}
      tabIndex={-1}
      className={carried ? 'open-page open-page-carrying' : 'open-page'}
      onKeyDownCapture={pressFirst}
      onKeyDown={press}
      onPointerDown={(event) => carrying.grab(event, page)}
      onPointerMove={carrying.drag}
      onPointerUp={carrying.drop}
      onPointerCancel={carrying.leave}
    >
      <SleevePage
        label={name}
        layout={page.layout}
        strips={strips}
        pxPerMm={pxPerMm}
        pageId={page.id}
        selection={selection}
        onPick={(id, how) => setSelection((before) => pickFrame(before, order, id, how))}
        onOpen={openFrame}
        carriedId={carried?.strip.stripId ?? null}
        target={target}
        heading={<PageHeading page={page} onChange={props.onChange} onRemove={props.onRemove} />}
      />
      <PageFoot carried={carried} empty={page.strips.length === 0} pxPerMm={pxPerMm} />
      <CarriedStrip carrying={carrying} pxPerMm={pxPerMm} />
    </div>
  );
}

interface PageHeadingProps {
  readonly page: Page;
  readonly onChange: () => void;
  readonly onRemove: () => void;
}

function PageHeading({ page, onChange, onRemove }: PageHeadingProps) {
  const warning = warnOfMaterial(page.material);
  return (
    <div className="page-heading">
      <h2 className="numbers">Page {page.number}</h2>
      <span className="page-heading-title">{page.title ?? page.layout.name}</span>
      {warning === null ? (
        <span className="page-heading-more">{page.material ?? ''}</span>
      ) : (
        <span className="page-heading-warning" title={warning}>
          {page.material}: not for film
        </span>
      )}
      <span className="page-heading-fullness">{fullnessWords(page)}</span>
      <Button look="quiet" onPress={onChange} name={`Change page ${page.number}`}>
        Change
      </Button>
      {page.strips.length === 0 ? (
        <Button look="quiet" onPress={onRemove} name={`Remove page ${page.number}`}>
          Remove
        </Button>
      ) : null}
    </div>
  );
}

interface PageFootProps {
  readonly carried: Carried | null;
  readonly empty: boolean;
  readonly pxPerMm: number;
}

/** What can be done here, and what is carried by keyboard. */
function PageFoot({ carried, empty, pxPerMm }: PageFootProps) {
  if (carried?.by === 'keyboard') {
    const strip = lyingStrip(carried.strip, NOTHING_KNOWN, []);
    return (
      <div className="open-page-foot open-page-hand">
        <FilmStrip
          label={describeStrip(strip)}
          filmFormat={strip.filmFormat}
          frames={strip.frames}
          pxPerMm={0.62 * pxPerMm}
        />
        <p>
          {describeStrip(strip)}. Arrows and Page Down choose, <Keys keys="Enter" /> puts it down,{' '}
          <Keys keys="Esc" /> leaves it.
        </p>
      </div>
    );
  }
  return (
    <p className="open-page-foot">
      {empty ? (
        'An empty page. Strips that are dragged here lie here.'
      ) : (
        <>
          Drag a strip, or <Keys keys="M" /> takes it up; <Keys keys="Enter" /> opens the frame,{' '}
          <Keys keys="I" /> its index card
        </>
      )}
    </p>
  );
}

const NOTHING_KNOWN = new Map<number, never>();

/** The strip under the pointer. */
function CarriedStrip({ carrying, pxPerMm }: { readonly carrying: Carrying; readonly pxPerMm: number }) {
  const { carried } = carrying;
  if (carried?.by !== 'pointer') return null;
  const strip = lyingStrip(carried.strip, NOTHING_KNOWN, []);
  return (
    <div className="carried-strip" style={{ left: carried.x + 10, top: carried.y + 10 }}>
      <FilmStrip
        label={describeStrip(carried.strip)}
        filmFormat={strip.filmFormat}
        frames={strip.frames}
        pxPerMm={pxPerMm}
      />
      <p>
        {carried.over === null ? 'over no pocket' : (carried.over.obstacle ?? `into row ${carried.over.row}`)}
      </p>
    </div>
  );
}

/** After a strip was put down the focus goes to its first frame, as soon as that lies there. */
function useFocusAfterCarrying(
  around: { readonly current: HTMLElement | null },
  { laid }: Carrying,
  page: Page,
): void {
  const done = useRef(laid);
  useEffect(() => {
    if (laid === null || laid === done.current || laid.pageId !== page.id) return;
    const strip = page.strips.find(
      ({ stripId, row, position }) =>
        stripId === laid.stripId && row === laid.row && position === laid.position,
    );
    if (!strip) return;
    done.current = laid;
    const frame = around.current?.querySelector(`[data-frame="${strip.frames[0]?.id}"]`);
    if (frame instanceof HTMLElement && document.activeElement === around.current) frame.focus();
  }, [around, laid, page]);
}
