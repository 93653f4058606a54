import type { Hit } from '../../shared/api/methods/search-methods.ts';
import type { Place } from '../../shared/api/values.ts';
import { formatPartialDate } from '../../shared/domain/date/partial-date.ts';
import { nameBinder } from '../../shared/text/place-words.ts';
import { useArchive } from '../api/use-query.ts';
import { PagePlace } from '../film/page-place.tsx';
import { Spine } from '../film/spine.tsx';
import { RouteLink, useViewState } from '../state/view-state.tsx';
import { Button } from '../ui/button.tsx';
import { processName } from './frame-hits.tsx';

/** Where the frame lies: the shelf, the page with its pocket in the light, the address in large figures; what made it. */
export function WherePanel({ hit }: { readonly hit: Hit | null }) {
  const viewState = useViewState();
  if (hit === null) {
    return <aside className="where where-empty" aria-label="Where it is" />;
  }
  const frame = { frame: String(hit.frameId) };
  const { lies } = hit;
  return (
    <aside className="where" aria-label="Where it is">
      <div className="where-head">
        <h2>Where it is</h2>
        <p className="numbers">
          {hit.roll}, frame {hit.frame}
        </p>
      </div>
      {lies ? (
        <WhereItLies lies={lies} hit={hit} />
      ) : (
        <p className="where-not">
          The roll is not filed, or this frame was left over.{' '}
          <RouteLink to={{ view: 'binders', params: { file: String(hit.rollId) } }}>File the roll</RouteLink>
        </p>
      )}
      <dl className="where-facts">
        <dt>Roll</dt>
        <dd>
          <RouteLink to={{ view: 'rolls', ids: [hit.rollId], params: frame }}>{hit.roll}</RouteLink>
        </dd>
        <dt>Outing</dt>
        <dd>
          {hit.outing ? (
            <>
              <RouteLink to={{ view: 'outings', ids: [hit.outing.id] }}>{hit.outing.title}</RouteLink>
              {hit.outing.date === null ? '' : `, ${formatPartialDate(hit.outing.date)}`}
            </>
          ) : (
            'none noted'
          )}
        </dd>
        <dt>Development</dt>
        <dd>
          {hit.development ? (
            <>
              <RouteLink to={{ view: 'development', ids: [hit.development.id] }}>
                {hit.development.date === null
                  ? `no. ${hit.development.id}`
                  : formatPartialDate(hit.development.date)}
              </RouteLink>
              , {processName(hit.development.process)}
            </>
          ) : (
            'none noted'
          )}
        </dd>
      </dl>
      <div className="where-ways">
        {lies ? (
          <Button
            look="main"
            onPress={() =>
              viewState.go({ view: 'binders', ids: [lies.binderId, lies.pageId], params: frame })
            }
          >
            Open the page
          </Button>
        ) : null}
        <Button
          look={lies ? 'plain' : 'main'}
          onPress={() => viewState.go({ view: 'rolls', ids: [hit.rollId], params: frame })}
        >
          Open the roll
        </Button>
        <RouteLink to={{ view: 'card', ids: [hit.frameId] }}>Index card</RouteLink>
        <RouteLink to={{ view: 'sheets', params: { roll: String(hit.rollId) } }}>Contact sheet</RouteLink>
      </div>
    </aside>
  );
}

/** The page beside its address goes into so many pixels. */
const PAGE_ROOM = { widthPx: 268, heightPx: 340 } as const;
/** Spines beside the open one, on either side at the most. Our choice. */
const BESIDE = 5;

function WhereItLies({ lies, hit }: { readonly lies: Place; readonly hit: Hit }) {
  const page = useArchive('pages.get', { id: lies.pageId }, { keepFormer: true });
  return (
    <>
      <ShelfInSmall openId={lies.binderId} />
      <PagePlace page={page.data} lies={lies} frameId={hit.frameId} room={PAGE_ROOM} />
    </>
  );
}

/** The binders beside the one that is meant, which is pulled out. */
function ShelfInSmall({ openId }: { readonly openId: number }) {
  const { data } = useArchive('binders.list', {});
  const binders = data ?? [];
  const at = binders.findIndex(({ id }) => id === openId);
  const from = Math.max(0, Math.min(at - BESIDE, binders.length - 2 * BESIDE - 1));
  return (
    <div
      className="where-shelf"
      role="img"
      aria-label={`${nameBinder(binders[at]?.name ?? '')} on the shelf`}
    >
      {binders.slice(from, from + 2 * BESIDE + 1).map((binder) => (
        <Spine
          key={binder.id}
          name={binder.name}
          lines={[]}
          fullness={null}
          widthPx={30}
          open={binder.id === openId}
          small
        />
      ))}
    </div>
  );
}
