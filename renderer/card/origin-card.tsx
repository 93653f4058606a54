import { useEffect } from 'react';
import type { FrameOrigin } from '../../shared/api/methods/origin-methods.ts';
import { nameOrigin, originText } from '../../shared/text/describe-origin.ts';
import { PagePlace } from '../film/page-place.tsx';
import { isWriting } from '../state/is-writing.ts';
import { RouteLink, useViewState } from '../state/view-state.tsx';
import { Button } from '../ui/button.tsx';
import { CardPicture } from './card-picture.tsx';
import { Neighbours } from './neighbours.tsx';
import { OriginFacts } from './origin-facts.tsx';
import { useCopy } from './use-copy.ts';

/** The page is drawn for so many pixels; on paper it follows the paper. */
const PAGE_ROOM = { widthPx: 470, heightPx: 470 } as const;

/** Everything about one frame on one card: seen, read, copied, printed; arrows go along the roll. */
export function OriginCard({ origin }: { readonly origin: FrameOrigin }) {
  const { frame, roll, along, page } = origin;
  const { lies } = frame;
  const copy = useCopy();
  const viewState = useViewState();
  const at = along.findIndex(({ id }) => id === frame.id);
  const [before, after] = [along[at - 1]?.id ?? null, along[at + 1]?.id ?? null];

  useEffect(() => {
    function press(event: KeyboardEvent): void {
      if (event.ctrlKey || event.metaKey || event.altKey || event.shiftKey || isWriting(event.target)) return;
      const to = event.key === 'ArrowLeft' ? before : event.key === 'ArrowRight' ? after : null;
      if (to === null) return;
      event.preventDefault();
      viewState.go({ view: 'card', ids: [to] });
    }
    window.addEventListener('keydown', press);
    return () => window.removeEventListener('keydown', press);
  }, [viewState, before, after]);

  const params = { frame: String(frame.id) };
  return (
    <div className="card-view">
      <article className="origin-card" aria-label={nameOrigin(origin)}>
        <header className="origin-head">
          <h1>
            <span className="origin-number numbers">{frame.label}</span>
            <span>
              {frame.caption ?? <span className="origin-none">no caption</span>}
              <small>
                frame {frame.label} of roll {roll.number}
              </small>
            </span>
          </h1>
          <div className="origin-ways">
            <Button onPress={() => void copy.copy(originText(origin))}>Copy as text</Button>
            <Button onPress={() => window.print()}>Print the card</Button>
            <RouteLink to={{ view: 'rolls', ids: [roll.id], params }}>Open the roll</RouteLink>
            {lies === null ? (
              <RouteLink to={{ view: 'binders', params: { file: String(roll.id) } }}>File the roll</RouteLink>
            ) : (
              <RouteLink to={{ view: 'binders', ids: [lies.binderId, lies.pageId], params }}>
                Open the page
              </RouteLink>
            )}
            <RouteLink to={{ view: 'sheets', params: { roll: String(roll.id) } }}>Contact sheet</RouteLink>
          </div>
          <p className="origin-said" role="status">
            {copy.outcome === 'copied' ? 'Copied.' : ''}
          </p>
        </header>
        {copy.outcome === 'refused' ? <TextToCopy text={originText(origin)} /> : null}
        <CardPicture frame={frame} filmFormat={roll.filmFormat} />
        <OriginFacts origin={origin} />
        <Neighbours origin={origin} />
        <div className="origin-place">
          {lies === null ? (
            <p className="origin-unfiled">This frame lies in no page yet.</p>
          ) : (
            <PagePlace page={page ?? undefined} lies={lies} frameId={frame.id} room={PAGE_ROOM} />
          )}
        </div>
        <span className="origin-rod" aria-hidden="true" />
      </article>
    </div>
  );
}

/** Where the system does not let the window write to its clipboard, the text is shown to be copied by hand. */
function TextToCopy({ text }: { readonly text: string }) {
  return (
    <div className="origin-by-hand">
      <p>The clipboard could not be written to. Copy the text from here:</p>
      <textarea
        readOnly
        rows={8}
        aria-label="The card as text"
        value={text}
        onFocus={(event) => event.currentTarget.select()}
      />
    </div>
  );
}
