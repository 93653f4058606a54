import { useRef, useState } from 'react';
import type { Binder, Page } from '../../shared/api/methods/filing-methods.ts';
import { useCommand } from '../api/use-command.ts';
import { useArchive } from '../api/use-query.ts';
import { fitPage } from '../film/page-geometry.ts';
import type { Route } from '../state/route.ts';
import { RouteLink } from '../state/view-state.tsx';
import { Button } from '../ui/button.tsx';
import { EmptyState } from '../ui/empty-state.tsx';
import { BinderRolls } from './binder-rolls.tsx';
import { OpenPage } from './open-page.tsx';
import { PageCard } from './page-card.tsx';
import { PageIndex } from './page-index.tsx';
import { RollCards } from './roll-cards.tsx';
import { binderWords, count, firstFreePocket, pocketWords } from './page-words.ts';
import { useCarrying } from './use-carrying.ts';
import { useLyingStrips } from './use-page-frames.ts';
import { useRoom } from './use-room.ts';
import { useWaitingRolls } from './use-waiting-rolls.ts';

export interface BinderPanelProps {
  readonly binder: Binder;
  readonly route: Route;
  readonly onChange: () => void;
  readonly onFile: (rollId: number) => void;
}

/** Text above the pockets of the open page, px. */
const HEADING_PX = 46;
/** The page is not drawn smaller than this, px per mm, so that edge numbers can be read; rather it is scrolled. */
const LEAST_SCALE = 2.03;
/** Below the page: a line about keys. */
const FOOT_PX = 46;

/** The binder that is pulled out: its pages in small, the open one as it is, and cards of the rolls on it. */
export function BinderPanel({ binder, route, onChange, onFile }: BinderPanelProps) {
  const { data } = useArchive('pages.ofBinder', { binderId: binder.id });
  const pages = data ?? [];
  const page = openPage(pages, route);
  const frameId = Number(route.params['frame'] ?? 0);
  const strips = useLyingStrips(page);
  const carrying = useCarrying(pages);
  const place = useRef<HTMLDivElement>(null);
  const around = useRef<HTMLElement>(null);
  const column = useRoom(place);
  const whole = useRoom(around);
  const room = column && whole ? { widthPx: column.widthPx, heightPx: whole.heightPx } : null;
  const remove = useCommand('pages.remove');
  const [changing, setChanging] = useState(false);
  const pxPerMm = page && room ? scaleFor(page, room) : LEAST_SCALE;

  return (
    <section ref={around} className="binder-panel" aria-label={binderWords(binder.name)}>
      <div className="binder-side">
        <div className="binder-side-head">
          <h1>{binderWords(binder.name)}</h1>
          <Button look="quiet" onPress={onChange} name={`Change binder ${binder.name}`}>
            Change
          </Button>
        </div>
        <p className="binder-side-facts">{factsOf(binder, pages)}</p>
        {binder.note === null ? null : <p className="binder-side-facts">{binder.note}</p>}
        <PageIndex pages={pages} openId={page?.id ?? null} aimedId={carrying.carried?.over?.pageId ?? null} />
        <div className="binder-side-rolls">
          {pages.length === 0 ? null : <BinderRolls pages={pages} openPageId={page?.id ?? null} />}
        </div>
      </div>
      <div ref={place} className="binder-page">
        {data !== undefined && page === null ? <NoPage onFile={onFile} /> : null}
        {page && room ? (
          <OpenPage
            page={page}
            pages={pages}
            strips={strips}
            pxPerMm={pxPerMm}
            carrying={carrying}
            startAt={frameId > 0 ? frameId : null}
            onChange={() => setChanging(true)}
            onRemove={() => void remove.run({ id: page.id })}
          />
        ) : null}
      </div>
      {page ? <RollCards page={page} pxPerMm={pxPerMm} headingPx={HEADING_PX} /> : null}
      <p className="unseen" aria-live="assertive">
        {carrying.said}
      </p>
      {page && changing ? <PageCard page={page} onClose={() => setChanging(false)} /> : null}
    </section>
  );
}

/** The page the route names by id, by number, or by a frame on it; else the first. */
function openPage(pages: readonly Page[], route: Route): Page | null {
  const id = Number(route.ids[1] ?? 0);
  const number = Number(route.params['page'] ?? 0);
  const frameId = Number(route.params['frame'] ?? 0);
  return (
    pages.find((page) => page.id === id) ??
    pages.find((page) => page.number === number) ??
    pages.find((page) => page.strips.some(({ frames }) => frames.some((frame) => frame.id === frameId))) ??
    pages[0] ??
    null
  );
}

function scaleFor(page: Page, room: { readonly widthPx: number; readonly heightPx: number }): number {
  const whole = fitPage(page.layout, { ...room, heightPx: room.heightPx - FOOT_PX }, HEADING_PX);
  const wide = fitPage(page.layout, { widthPx: room.widthPx, heightPx: null }, HEADING_PX);
  return Math.min(wide, Math.max(whole, LEAST_SCALE));
}

function factsOf(binder: Binder, pages: readonly Page[]): string {
  const full = pages.filter((page) => page.strips.length > 0).length;
  const free = pages.find((page) => firstFreePocket(page) !== null);
  const pocket = free ? firstFreePocket(free) : null;
  return [
    binder.place === null ? null : `Stands in: ${binder.place}.`,
    pages.length === 0
      ? null
      : `${full} of ${count(pages.length, 'page')} ${full === 1 ? 'holds' : 'hold'} film.`,
    free && pocket ? `First free pocket: page ${free.number}, ${pocketWords(free, pocket)}.` : null,
  ]
    .filter((sentence) => sentence !== null)
    .join(' ');
}

/** A binder without pages: a dashed page, and how one comes here. */
function NoPage({ onFile }: { readonly onFile: (rollId: number) => void }) {
  const first = useWaitingRolls()?.rolls[0];
  return (
    <EmptyState
      drawing={
        <div className="binder-no-page" aria-hidden="true">
          {Array.from({ length: 7 }, (_, row) => (
            // oxlint-disable-next-line react/no-array-index-key
            <span key={row} />
          ))}
        </div>
      }
      says="No page hangs here yet. Pages come with the film that is filed on them: put a roll away and choose this binder."
      action={
        first ? (
          <Button look="main" onPress={() => onFile(first.id)}>
            Put roll {first.number} away here
          </Button>
        ) : (
          <RouteLink to={{ view: 'rolls' }}>Go to the rolls</RouteLink>
        )
      }
    />
  );
}
