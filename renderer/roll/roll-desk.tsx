import { useCallback, useMemo, useRef, useState, type KeyboardEvent } from 'react';
import type { Page } from '../../shared/api/methods/filing-methods.ts';
import type { Frame, PencilMark, Roll } from '../../shared/api/methods/film-methods.ts';
import { keepFrames, NO_FRAMES, pickFrame, type FrameSelection } from '../film/frame-selection.ts';
import { isWriting } from '../state/is-writing.ts';
import type { Route } from '../state/route.ts';
import { RouteLink, useViewState } from '../state/view-state.tsx';
import { Button } from '../ui/button.tsx';
import { EmptyState } from '../ui/empty-state.tsx';
import type { Picking } from '../ui/grid-list.tsx';
import { Keys } from '../ui/keys.tsx';
import { AddFrames } from './add-frames.tsx';
import type { Done } from './done-line.tsx';
import { LooseSpread, PageSpread } from './film-spread.tsx';
import { ForeEdge } from './fore-edge.tsx';
import { FrameLarge } from './frame-large.tsx';
import { FrameSlip } from './frame-slip.tsx';
import { RollCard } from './roll-card.tsx';
import { ScanList } from './scan-list.tsx';
import { LooseHeading, PageHeading } from './spread-heading.tsx';
import { isMarked, markOfKey, useMarks } from './use-marks.ts';
import { useTurning } from './use-turning.ts';
import { useWidth } from './use-width.ts';
import { WritePictures } from './write-pictures.tsx';

export interface RollDeskProps {
  readonly roll: Roll;
  readonly frames: readonly Frame[];
  readonly pages: readonly Page[];
  readonly route: Route;
}

/** The width of page and ledger in a window of 1440 px. */
const SPREAD_PX = 1050;

/** A frame that is looked at large, and whether its crop lines are being drawn. */
interface Looking {
  readonly id: number;
  readonly cropping: boolean;
}

/** The roll on the desk: what is picked, what is typed, what was done. */
export function RollDesk({ roll, frames, pages, route }: RollDeskProps) {
  const viewState = useViewState();
  const desk = useRef<HTMLDivElement>(null);
  const middle = useRef<HTMLDivElement>(null);
  const widthPx = useWidth(middle, SPREAD_PX);
  const order = useMemo(() => orderOf(roll.id, frames, pages), [roll.id, frames, pages]);
  const [chosen, setChosen] = useState<FrameSelection>(() => startAt(Number(route.params['frame'] ?? 0)));
  const selection = keepFrames(chosen, order);
  const picked = frames.filter(({ id }) => selection.picked.has(id));
  // Only the last thing that was done can be undone from here, so there is one for the card and the frames.
  const [last, setLast] = useState<{ readonly done: Done; readonly to: 'card' | 'frames' } | null>(null);
  const done = last?.to === 'frames' ? last.done : null;
  const setDone = (next: Done | null) => setLast(next && { done: next, to: 'frames' });
  const [asked, setAsked] = useState(0);
  const [looking, setLooking] = useState<Looking | null>(null);
  const [adding, setAdding] = useState(false);
  const [writing, setWriting] = useState(false);
  const marking = useMarks(setDone);
  const turning = useTurning(setDone);
  const large = frames.find(({ id }) => id === looking?.id);

  const pick = useCallback(
    (id: number, how: Picking) => {
      if (order.includes(id)) setChosen((before) => pickFrame(keepFrames(before, order), order, id, how));
    },
    [order],
  );
  const open = useCallback(
    (id: number) => {
      if (order.includes(id)) setLooking({ id, cropping: false });
      else goToOther(id);
    },
    // The others are read from the pages that are shown.
    // oxlint-disable-next-line react/exhaustive-deps
    [order, pages],
  );
  function goToOther(id: number): void {
    const strip = pages
      .flatMap(({ strips }) => strips)
      .find((lying) => lying.frames.some((frame) => frame.id === id));
    if (strip) viewState.go({ view: 'rolls', ids: [strip.rollId], params: { frame: String(id) } });
  }
  function mark(kind: PencilMark['kind']): void {
    const active = picked.find(({ id }) => id === selection.active) ?? picked[0];
    if (kind !== 'crop') void marking.toggle(picked, kind);
    else if (isMarked(picked, 'crop')) void marking.crop(picked, null);
    else if (active) setLooking({ id: active.id, cropping: true });
  }
  function leave(): void {
    const back = selection.active;
    setChosen((before) => ({ ...before, picked: new Set() }));
    const frame =
      back === null ? null : desk.current?.querySelector(`[role='gridcell'][data-frame='${back}']`);
    if (frame instanceof HTMLElement) frame.focus();
  }
  function press(event: KeyboardEvent): void {
    if (event.defaultPrevented || event.ctrlKey || event.metaKey || event.altKey) return;
    if (isWriting(event.target) || looking !== null || adding || writing) return;
    const drawn = markOfKey(event.key);
    const key = event.key.toLowerCase();
    if (picked.length === 0) return;
    if (drawn) mark(drawn.kind);
    else if (key === 'w') setAsked((times) => times + 1);
    else if (key === 't') turning.turn(picked, event.shiftKey ? 270 : 90);
    else if (key === 'm') turning.mirror(picked);
    else if (event.key === 'Escape') leave();
    else return;
    event.preventDefault();
  }

  const onPages = new Set(
    pages.flatMap(({ strips }) => strips.flatMap((strip) => strip.frames.map(({ id }) => id))),
  );
  const loose = frames.filter(({ id }) => !onPages.has(id));
  const shared = { roll, widthPx, selection, onPick: pick, onOpen: open };
  return (
    // Keys that write to what is picked; frames and fields carry the focus.
    // oxlint-disable-next-line jsx-a11y/no-static-element-interactions
    <div ref={desk} className="roll-view" onKeyDown={press}>
      <ForeEdge roll={roll} />
      <div className="roll-middle">
        <div ref={middle} className="roll-spreads">
          {pages.map((page, index) => (
            <PageSpread
              key={page.id}
              {...shared}
              page={page}
              frames={frames}
              heading={
                <PageHeading roll={roll} page={page} first={index === 0} onAdd={() => setAdding(true)} />
              }
            />
          ))}
          {loose.length > 0 ? (
            <LooseSpread
              {...shared}
              label={`Strips of roll ${roll.number} that lie in no page`}
              frames={loose}
              heading={
                <LooseHeading
                  roll={roll}
                  frames={loose.length}
                  first={pages.length === 0}
                  onAdd={() => setAdding(true)}
                />
              }
            />
          ) : null}
          {frames.length === 0 ? <NoFrames roll={roll} onAdd={() => setAdding(true)} /> : null}
        </div>
        <ScanList rollId={roll.id} number={roll.number} onDone={setDone} />
        {frames.some(({ versions }) => versions.length > 0) ? (
          <p>
            <Button look="quiet" onPress={() => setWriting(true)}>
              Write {picked.length > 1 ? 'the picked pictures' : 'the pictures of the roll'} as shown…
            </Button>
          </p>
        ) : null}
        {frames.length > 0 ? <KeyWords /> : null}
      </div>
      <aside className="roll-side" aria-label="Card and slip">
        <RollCard
          roll={roll}
          done={last?.to === 'card' ? last.done : null}
          onDone={(next) => setLast(next && { done: next, to: 'card' })}
        />
        {picked.length > 0 ? (
          <FrameSlip
            frames={picked}
            onLeave={leave}
            onMark={mark}
            onOpen={() => setLooking({ id: selection.active ?? picked[0]?.id ?? 0, cropping: false })}
            marking={marking.pending}
            done={done}
            onDone={setDone}
            asked={asked}
          />
        ) : frames.length > 0 ? (
          <p className="slip-waiting">Pick a frame, or drag over a run of frames, to write to them.</p>
        ) : null}
      </aside>
      {large && looking ? (
        <FrameLarge
          roll={roll}
          frame={large}
          frames={frames}
          marking={marking}
          cropping={looking.cropping}
          done={done}
          onDone={setDone}
          onGo={(id) => {
            setLooking({ id, cropping: false });
            pick(id, 'only');
          }}
          onClose={() => setLooking(null)}
        />
      ) : null}
      {writing ? (
        <WritePictures
          frames={picked.length > 1 ? picked : frames}
          rollNumber={roll.number}
          onClose={() => setWriting(false)}
        />
      ) : null}
      {adding ? <AddFrames roll={roll} onClose={() => setAdding(false)} /> : null}
    </div>
  );
}

function startAt(id: number): FrameSelection {
  return id > 0 ? { active: id, anchor: id, picked: new Set([id]) } : NO_FRAMES;
}

/** The frames of the roll as they are walked: page by page, row by row, then those that lie loose. */
function orderOf(rollId: number, frames: readonly Frame[], pages: readonly Page[]): readonly number[] {
  const known = new Set(frames.map(({ id }) => id));
  const lying = pages.flatMap((page) =>
    [...page.strips]
      .filter((strip) => strip.rollId === rollId)
      .sort((a, b) => a.row - b.row || a.position - b.position)
      .flatMap((strip) => strip.frames.map(({ id }) => id)),
  );
  const onPages = new Set(lying);
  return [
    ...lying.filter((id) => known.has(id)),
    ...frames.map(({ id }) => id).filter((id) => !onPages.has(id)),
  ];
}

function NoFrames({ roll, onAdd }: { readonly roll: Roll; readonly onAdd: () => void }) {
  return (
    <div className="roll-empty">
      <h1 className="numbers">
        {roll.number} <span>{roll.title ?? ''}</span>
      </h1>
      <EmptyState
        says="The frames of the roll lie here. They come with its scans; frames that nobody scanned are written down."
        action={
          <Button look="main" onPress={onAdd}>
            Write down its frames
          </Button>
        }
      />
      <p>
        <RouteLink to={{ view: 'scans', params: { roll: String(roll.id) } }}>Bring its scans in</RouteLink>
      </p>
    </div>
  );
}

function KeyWords() {
  return (
    <p className="roll-keys">
      Arrows walk along the film, <Keys keys="Shift" /> stretches a run. <Keys keys="B" /> <Keys keys="D" />{' '}
      <Keys keys="S" /> <Keys keys="C" /> draw box, dot, stroke and crop lines; <Keys keys="W" /> goes to the
      slip, <Keys keys="T" /> turns, <Keys keys="M" /> mirrors, <Keys keys="Enter" /> shows the frame large.
    </p>
  );
}
