import type { PictureHit } from '../../shared/api/methods/look-up-methods.ts';
import { formatPartialDate } from '../../shared/domain/date/partial-date.ts';
import { describePlace } from '../../shared/text/place-words.ts';
import { useArchive } from '../api/use-query.ts';
import { PagePlace } from '../film/page-place.tsx';
import { RouteLink } from '../state/view-state.tsx';
import { Overlay } from './overlay.tsx';

/** How the picture lies in the frame, in words. */
function describeLie({ turned, mirrored, negative }: PictureHit): string {
  const words = [
    turned === 0 ? null : `turned by ${turned}°`,
    mirrored ? 'mirrored' : null,
    negative ? 'as a negative' : null,
  ].filter((word) => word !== null);
  return words.length === 0 ? 'as it lies' : words.join(', ');
}

function percent(share: number): string {
  return `${Math.round(share * 100)} %`;
}

export interface PictureHitCardProps {
  readonly hit: PictureHit;
  /** The picture that was looked for, as the window can show it. */
  readonly asked: string;
}

/** The page is drawn for so many pixels. */
const PAGE_ROOM = { widthPx: 230, heightPx: 240 } as const;

/** One frame found: the picture laid over it, where it lies, what made it. */
export function PictureHitCard({ hit, asked }: PictureHitCardProps) {
  const { region, lies, outing, development } = hit;
  const page = useArchive('pages.get', { id: lies?.pageId ?? 1 }, { when: lies !== null });
  const params = { frame: String(hit.frameId) };
  return (
    <li className="which-hit">
      <Overlay hit={hit} asked={asked} />
      <div className="which-words">
        <h3>
          <RouteLink to={{ view: 'card', ids: [hit.frameId] }}>
            {hit.roll}/{hit.frame}
          </RouteLink>{' '}
          <span className="which-sure">{percent(hit.confidence)} sure</span>
        </h3>
        {hit.caption === null ? null : <p>{hit.caption}</p>}
        <dl className="which-facts">
          <dt>Roll</dt>
          <dd>
            <RouteLink to={{ view: 'rolls', ids: [hit.rollId], params }}>{hit.roll}</RouteLink>
          </dd>
          <dt>Lies in</dt>
          <dd>
            {lies === null ? (
              'no page yet'
            ) : (
              <RouteLink to={{ view: 'binders', ids: [lies.binderId, lies.pageId], params }}>
                {describePlace(lies)}
              </RouteLink>
            )}
          </dd>
          <dt>Outing</dt>
          <dd>
            {outing === null ? (
              'not noted'
            ) : (
              <>
                <RouteLink to={{ view: 'outings', ids: [outing.id] }}>{outing.title}</RouteLink>
                {outing.date === null ? '' : `, ${formatPartialDate(outing.date)}`}
              </>
            )}
          </dd>
          <dt>Development</dt>
          <dd>
            {development === null ? (
              'not noted'
            ) : (
              <RouteLink to={{ view: 'development', ids: [development.id] }}>
                {development.date === null ? `no. ${development.id}` : formatPartialDate(development.date)}
              </RouteLink>
            )}
          </dd>
          <dt>Shown</dt>
          <dd>
            {describeLie(hit)}, {percent(Math.min(1, region.width * region.height))} of the frame
          </dd>
        </dl>
        {lies === null ? null : (
          <PagePlace page={page.data} lies={lies} frameId={hit.frameId} room={PAGE_ROOM} />
        )}
      </div>
    </li>
  );
}
