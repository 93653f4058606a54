import type { ReactNode } from 'react';
import type { Hit } from '../../shared/api/methods/search-methods.ts';
import { formatPartialDate } from '../../shared/domain/date/partial-date.ts';
import { PROCESS_NAMES } from '../../shared/text/format.ts';
import { useArchive } from '../api/use-query.ts';
import { drawnFrame, plainPicture, type DrawnFrame } from '../film/drawn-frame.ts';
import { frameGeometry } from '../film/film-geometry.ts';
import { FilmStrip } from '../film/film-strip.tsx';
import { smallPlace, smallStrips } from '../film/lying-strip.ts';
import { PageSmall } from '../film/page-small.tsx';
import { useViewState } from '../state/view-state.tsx';
import { GridList, type GridColumn } from '../ui/grid-list.tsx';
import { nameBinder, ordinal } from '../../shared/text/place-words.ts';
import type { Hits } from './use-hits.ts';

export interface FrameHitsProps {
  readonly hits: Hits;
  readonly active: number;
  readonly onActive: (index: number) => void;
  readonly empty: ReactNode;
}

/** A frame found, and whether it is the first of its roll in the list. */
interface HitRow {
  readonly hit: Hit;
  readonly first: boolean;
}

const ROW_PX = 84;
/** More are fetched when so few rows are left below the last one in sight. Our choice. */
const AHEAD = 30;

/** The frames found, by roll and along the film, each with its neighbours and the place it lies in. */
export function FrameHits({ hits, active, onActive, empty }: FrameHitsProps) {
  const viewState = useViewState();
  const found = hits.hits;
  const rowAt = (index: number): HitRow | undefined => {
    const hit = found[index];
    return hit && { hit, first: found[index - 1]?.rollId !== hit.rollId };
  };
  function open(index: number): void {
    const hit = found[index];
    if (!hit) return;
    const params = { frame: String(hit.frameId) };
    if (hit.lies) viewState.go({ view: 'binders', ids: [hit.lies.binderId, hit.lies.pageId], params });
    else viewState.go({ view: 'rolls', ids: [hit.rollId], params });
  }
  return (
    <GridList<HitRow>
      label="Frames found"
      columns={COLUMNS}
      count={found.length}
      rowAt={rowAt}
      rowKey={(index) => found[index]?.frameId ?? index}
      rowHeightPx={ROW_PX}
      active={active}
      onActive={onActive}
      onOpen={open}
      onVisible={(_first, last) => {
        if (last > found.length - AHEAD) hits.fetchMore();
      }}
      empty={hits.first ? empty : null}
    />
  );
}

const COLUMNS: readonly GridColumn<HitRow>[] = [
  {
    id: 'roll',
    title: 'Roll',
    width: 'minmax(5rem, 0.6fr)',
    cell: ({ hit, first }) => <RollCell rollId={hit.rollId} number={hit.roll} first={first} />,
  },
  {
    id: 'film',
    title: 'Beside its neighbours',
    width: '240px',
    cell: ({ hit }) => <HitFilm hit={hit} />,
  },
  {
    id: 'frame',
    title: 'Frame',
    width: '3.25rem',
    cell: ({ hit }) => <span className="numbers hit-frame">{hit.frame}</span>,
  },
  {
    id: 'caption',
    title: 'Caption, outing',
    width: 'minmax(5.5rem, 1.6fr)',
    cell: ({ hit }) => (
      <span className="hit-words">
        <span className="hit-caption">{hit.caption ?? <span className="hit-none">no caption</span>}</span>
        {hit.outing ? (
          <span>
            {hit.outing.date === null ? '' : `${formatPartialDate(hit.outing.date)}, `}
            {hit.outing.title}
          </span>
        ) : null}
        {hit.development ? (
          <span className="hit-development">
            developed {hit.development.date === null ? '' : formatPartialDate(hit.development.date)},{' '}
            {processName(hit.development.process)}
          </span>
        ) : null}
      </span>
    ),
  },
  { id: 'where', title: 'Where', width: '10.75rem', cell: ({ hit }) => <HitPlace hit={hit} /> },
];

/** A process as people write it; the engine's own word where it is another. */
export function processName(process: string): string {
  const name = Object.entries(PROCESS_NAMES).find(([kind]) => kind === process)?.[1];
  return name ?? process;
}

function RollCell({
  rollId,
  number,
  first,
}: {
  readonly rollId: number;
  readonly number: string;
  readonly first: boolean;
}) {
  const { data } = useArchive('rolls.get', { id: rollId });
  if (!first) return <span className="unseen">{number}</span>;
  return (
    <span className="hit-words hit-first">
      <span className="numbers hit-roll">{number}</span>
      {data?.title ? <span>{data.title}</span> : null}
      {data?.stock ? <span className="hit-development">{data.stock.name}</span> : null}
    </span>
  );
}

/** The frame in the light between its two neighbours on the film. */
function HitFilm({ hit }: { readonly hit: Hit }) {
  const roll = useArchive('rolls.get', { id: hit.rollId });
  const frames = useArchive('frames.ofRoll', { rollId: hit.rollId });
  if (!roll.data) return null;
  const { filmFormat, frameFormat } = roll.data;
  const along = frames.data ?? [];
  const at = along.findIndex(({ id }) => id === hit.frameId);
  const shown: readonly DrawnFrame[] =
    at < 0
      ? [bareFrame(hit, frameFormat)]
      : along.slice(Math.max(0, at - 1), at + 2).map((frame) => drawnFrame(frame, filmFormat));
  const { cellMm, filmMm } = frameGeometry(frameFormat, filmFormat);
  const pxPerMm = Math.min((ROW_PX - 8) / filmMm, 228 / (3 * cellMm));
  return (
    <FilmStrip
      label={`Frame ${hit.frame} of ${hit.roll} between its neighbours`}
      filmFormat={filmFormat}
      frames={shown}
      pxPerMm={pxPerMm}
      litIds={new Set([hit.frameId])}
      dimOthers
    />
  );
}

/** The frame alone, while its roll is still on its way. */
function bareFrame(hit: Hit, frameFormat: string): DrawnFrame {
  return {
    id: hit.frameId,
    label: hit.frame,
    frameFormat,
    picture: hit.pictureId === null ? null : plainPicture(hit.pictureId),
    marks: [],
    faults: [],
    caption: hit.caption,
    scans: null,
  };
}

function HitPlace({ hit }: { readonly hit: Hit }) {
  const { lies } = hit;
  const page = useArchive('pages.get', { id: lies?.pageId ?? 1 }, { when: lies !== null });
  if (lies === null) {
    return (
      <span className="hit-place">
        <PageSmall rows={7} strips={[]} absent />
        <span className="hit-words hit-none">not filed</span>
      </span>
    );
  }
  return (
    <span className="hit-place">
      {page.data ? (
        <PageSmall
          rows={page.data.layout.rows}
          strips={smallStrips(page.data)}
          litRow={lies.row}
          litPlace={smallPlace(page.data, hit.frameId)}
        />
      ) : (
        <PageSmall rows={7} strips={[]} />
      )}
      <span className="hit-words">
        <span className="hit-address">
          {nameBinder(lies.binder)}, page {lies.page}
        </span>
        <span>
          row {lies.row}, {ordinal(lies.position)}
        </span>
      </span>
    </span>
  );
}
