import type { PictureHit } from '../../shared/api/methods/look-up-methods.ts';
import { previewAddress } from '../../shared/api/preview-url.ts';
import { RouteLink } from '../state/view-state.tsx';

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

/** One frame found: its picture with the part that was looked for outlined, where it lies, what made it. */
export function PictureHitCard({ hit }: { readonly hit: PictureHit }) {
  const { region, lies, outing, development } = hit;
  const box = {
    left: `${region.x * 100}%`,
    top: `${region.y * 100}%`,
    width: `${region.width * 100}%`,
    height: `${region.height * 100}%`,
  };
  return (
    <li className="which-hit">
      <div className="which-picture">
        {hit.pictureId === null ? null : (
          <img src={previewAddress(hit.pictureId, 'large')} alt={`Frame ${hit.frame} of roll ${hit.roll}`} />
        )}
        <div className="which-region" style={box} aria-hidden="true" />
      </div>
      <div className="which-words">
        <h3>
          <RouteLink
            to={{ view: 'rolls', ids: [String(hit.rollId)], params: { frame: String(hit.frameId) } }}
          >
            {hit.roll}/{hit.frame}
          </RouteLink>{' '}
          <span className="which-sure">{percent(hit.confidence)} sure</span>
        </h3>
        {hit.caption === null ? null : <p>{hit.caption}</p>}
        <dl>
          <dt>Lies in</dt>
          <dd>
            {lies === null ? (
              'no page yet'
            ) : (
              <RouteLink
                to={{
                  view: 'binders',
                  ids: [String(lies.binderId), String(lies.pageId)],
                  params: { frame: String(hit.frameId) },
                }}
              >
                {lies.binder}, page {lies.page}, row {lies.row}, position {lies.position}
              </RouteLink>
            )}
          </dd>
          <dt>Outing</dt>
          <dd>
            {outing === null
              ? 'not noted'
              : `${outing.title}${outing.date === null ? '' : `, ${outing.date}`}`}
          </dd>
          <dt>Development</dt>
          <dd>{development === null ? 'not noted' : (development.date ?? 'on an unknown day')}</dd>
          <dt>Shown</dt>
          <dd>
            {describeLie(hit)}, {percent(Math.min(1, region.width * region.height))} of the frame
          </dd>
        </dl>
      </div>
    </li>
  );
}
