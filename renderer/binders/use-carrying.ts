import { useRef, useState, type KeyboardEvent, type PointerEvent } from 'react';
import type { Page, StripOnPage } from '../../shared/api/methods/filing-methods.ts';
import { useCommand } from '../api/use-command.ts';
import { describeStrip } from '../film/lying-strip.ts';
import { hasSinglePockets } from '../film/page-geometry.ts';
import type { PocketPlace } from '../film/sleeve-page.tsx';
import { firstFreePocket, obstacleTo, pocketsOfPage, pocketWords } from './page-words.ts';

/** A strip that was taken up, and where it would go if it were put down now. */
export interface Carried {
  readonly strip: StripOnPage;
  readonly fromPageId: number;
  readonly by: 'keyboard' | 'pointer';
  /** Null while it is over no pocket. */
  readonly over: (PocketPlace & { readonly pageId: number; readonly obstacle: string | null }) | null;
  /** Where the pointer is in the window, px. */
  readonly x: number;
  readonly y: number;
}

/** Where a strip that was carried by keyboard lies now, or will as soon as the page is fetched anew. */
export interface Laid extends PocketPlace {
  readonly stripId: number;
  readonly pageId: number;
}

export interface Carrying {
  readonly carried: Carried | null;
  /** Where the last strip was put down or left, for the focus to go there; null after a pointer. */
  readonly laid: Laid | null;
  /** What a screen reader is told. */
  readonly said: string;
  /** The strip is on its way: the engine has not answered yet. */
  readonly pending: boolean;
  /** Takes a strip up by keyboard. */
  takeUp(page: Page, strip: StripOnPage): void;
  /** Keys while a strip is carried. True when the key was for it. */
  press(event: KeyboardEvent, page: Page, turnPage: (way: 1 | -1) => Page | null): boolean;
  /** A pointer went down on a strip of the page. */
  grab(event: PointerEvent, page: Page): void;
  drag(event: PointerEvent): void;
  drop(): void;
  leave(): void;
}

const LEFT = 'Left where it was.';

/** A pointer has to move so far before a strip comes along, px: less is a click. Our choice. */
const GRIP_PX = 6;

/** Taking a strip from its pocket and putting it into another one. It lies there when the engine says so. */
export function useCarrying(pages: readonly Page[]): Carrying {
  const move = useCommand('strips.move');
  const [carried, setCarried] = useState<Carried | null>(null);
  const [laid, setLaid] = useState<Laid | null>(null);
  const [said, setSaid] = useState('');
  const grip = useRef<{ strip: StripOnPage; pageId: number; x: number; y: number } | null>(null);

  /** Ends the carrying: the strip lies at `place`, or where it was. */
  function end({ strip, fromPageId, by }: Carried, words: string, place: Omit<Laid, 'stripId'> | null): void {
    const { row, position } = strip;
    const at = place ?? { row, position, pageId: fromPageId };
    grip.current = null;
    setCarried(null);
    setLaid(by === 'keyboard' ? { ...at, stripId: strip.stripId } : null);
    setSaid(words);
  }

  async function putDown(now: Carried): Promise<void> {
    const { strip, over, fromPageId } = now;
    const page = pages.find(({ id }) => id === over?.pageId);
    const same = fromPageId === page?.id && strip.row === over?.row && strip.position === over.position;
    if (!over || !page || same) return end(now, LEFT, null);
    if (over.obstacle !== null) return end(now, `It did not go there: ${over.obstacle}. ${LEFT}`, null);
    const { row, position } = over;
    // In the hand until the engine has answered: it is nowhere else before.
    const ended = await move.run({ stripId: strip.stripId, pageId: page.id, row, position });
    if (!ended.ok) return end(now, 'It was not moved; it lies where it was.', null);
    const words = `${describeStrip(strip)} now in page ${page.number}, ${pocketWords(page, over)}.`;
    return end(now, words, { row, position, pageId: page.id });
  }

  function takeUp(page: Page, strip: StripOnPage): void {
    const over = { row: strip.row, position: strip.position, pageId: page.id, obstacle: null };
    setCarried({ strip, fromPageId: page.id, by: 'keyboard', over, x: 0, y: 0 });
    setSaid(
      `${describeStrip(strip)} taken up. Arrows choose a pocket, Page Down and Page Up another page, Enter puts it down, Escape leaves it.`,
    );
  }

  function aim(now: Carried, page: Page, pocket: PocketPlace): void {
    const obstacle = obstacleTo(now.strip, page, pocket);
    setCarried({ ...now, over: { ...pocket, pageId: page.id, obstacle } });
    setSaid(`Page ${page.number}, ${pocketWords(page, pocket)}, ${obstacle ?? 'free'}.`);
  }

  function press(event: KeyboardEvent, page: Page, turnPage: (way: 1 | -1) => Page | null): boolean {
    if (carried?.by !== 'keyboard') return false;
    if (move.pending) return event.key !== 'Tab';
    const next = nextPocket(event.key, page, carried.over);
    if (next) aim(carried, page, next);
    else if (event.key === 'PageDown' || event.key === 'PageUp') {
      const turned = turnPage(event.key === 'PageDown' ? 1 : -1);
      if (turned)
        aim(carried, turned, firstFreePocket(turned, carried.strip.stripId) ?? { row: 1, position: 1 });
    } else if (event.key === 'Enter' || event.key === ' ') {
      if (carried.over?.obstacle === null) void putDown(carried);
      else setSaid(`It does not go there: ${carried.over?.obstacle ?? 'no pocket'}. Choose another.`);
    } else if (event.key === 'Escape') leave();
    else return event.key !== 'Tab';
    event.preventDefault();
    return true;
  }

  function leave(): void {
    if (carried) end(carried, LEFT, null);
    grip.current = null;
  }

  function grab(event: PointerEvent, page: Page): void {
    if (event.button !== 0 || carried || move.pending) return;
    const id = stripAt(event.target);
    const strip = page.strips.find(({ stripId }) => stripId === id);
    grip.current = strip ? { strip, pageId: page.id, x: event.clientX, y: event.clientY } : null;
  }

  function drag(event: PointerEvent): void {
    const from = grip.current;
    if (!from || move.pending) return;
    const moved = Math.hypot(event.clientX - from.x, event.clientY - from.y);
    if (carried === null && moved < GRIP_PX) return;
    // From here on every move is told to the page, wherever the pointer is; a click before would have been lost.
    if (carried === null) event.currentTarget.setPointerCapture(event.pointerId);
    const over = pocketAt(event.clientX, event.clientY, pages, from.strip);
    setCarried({
      strip: from.strip,
      fromPageId: from.pageId,
      by: 'pointer',
      over,
      x: event.clientX,
      y: event.clientY,
    });
  }

  function drop(): void {
    grip.current = null;
    if (carried?.by === 'pointer') void putDown(carried);
  }

  return { carried, laid, said, pending: move.pending, takeUp, press, grab, drag, drop, leave };
}

/** The pocket an arrow key leads to, or null when it leads nowhere. */
function nextPocket(key: string, page: Page, over: PocketPlace | null): PocketPlace | null {
  const pockets = pocketsOfPage(page);
  const perRow = hasSinglePockets(page.layout) ? page.layout.positions : 1;
  const at = pockets.findIndex(
    ({ row, position }) => row === over?.row && (perRow === 1 || position === over.position),
  );
  const steps: Record<string, number> = { ArrowDown: perRow, ArrowUp: -perRow, ArrowRight: 1, ArrowLeft: -1 };
  const step = steps[key];
  if (step === undefined || (perRow === 1 && (key === 'ArrowRight' || key === 'ArrowLeft'))) {
    if (key === 'Home') return pockets[0] ?? null;
    return key === 'End' ? (pockets.at(-1) ?? null) : null;
  }
  return pockets[at + step] ?? null;
}

function stripAt(target: EventTarget): number | null {
  const strip = target instanceof Element ? target.closest('[data-strip]') : null;
  return strip instanceof HTMLElement ? Number(strip.dataset['strip']) : null;
}

/** The pocket under the pointer: of a page, or the first free one of a page in small. */
function pocketAt(x: number, y: number, pages: readonly Page[], strip: StripOnPage): Carried['over'] {
  const place = document.elementFromPoint(x, y)?.closest('[data-page]');
  if (!(place instanceof HTMLElement)) return null;
  const page = pages.find(({ id }) => id === Number(place.dataset['page']));
  if (!page) return null;
  const { row, position } = place.dataset;
  const pocket =
    row === undefined
      ? firstFreePocket(page, strip.stripId)
      : { row: Number(row), position: Number(position ?? 1) };
  if (!pocket) return null;
  return { ...pocket, pageId: page.id, obstacle: obstacleTo(strip, page, pocket) };
}
