import type { Page } from '../../shared/api/methods/filing-methods.ts';
import type { Roll } from '../../shared/api/methods/film-methods.ts';
import { RouteLink } from '../state/view-state.tsx';
import { Button } from '../ui/button.tsx';
import { binderWords, count, cutWords } from './roll-words.ts';

interface HeadingProps {
  readonly roll: Roll;
  /** The first spread of the roll has its number as the heading of the view. */
  readonly first: boolean;
  readonly onAdd: () => void;
}

/** What stands on the writing strip of a page: the roll, its cut, and where this is. */
export function PageHeading({ roll, page, first, onAdd }: HeadingProps & { readonly page: Page }) {
  const strips = page.strips
    .filter(({ rollId }) => rollId === roll.id)
    .sort((a, b) => a.row - b.row || a.position - b.position);
  const rows = strips.map(({ row }) => row);
  const [from, to] = [Math.min(...rows), Math.max(...rows)];
  const cut = cutWords(strips.map(({ frames }) => ({ frames: frames.length })));
  return (
    <div className="spread-heading">
      <Number roll={roll} first={first} />
      <p className="spread-title">
        {roll.title ?? 'no title'}
        <small>
          {count(roll.frames, 'frame')}, {count(strips.length, 'strip')}
          {first && strips.length > 0 ? <span className="spread-cut">, cut {cut}</span> : null}{' '}
          {first ? <HeadingLinks roll={roll} onAdd={onAdd} /> : null}
        </small>
      </p>
      <p className="spread-address">
        <RouteLink to={{ view: 'binders', ids: [page.binderId, page.id] }}>
          {binderWords(page.binder)}, page <b>{page.number}</b>
        </RouteLink>
        <br />
        {from === to ? (
          <>
            row <b>{from}</b>
          </>
        ) : (
          <>
            rows <b>{from}</b> to <b>{to}</b>
          </>
        )}
      </p>
    </div>
  );
}

/** What stands above strips that lie in no page. */
export function LooseHeading({ roll, frames, first, onAdd }: HeadingProps & { readonly frames: number }) {
  return (
    <div className="spread-heading">
      <Number roll={roll} first={first} />
      <p className="spread-title">
        {first ? (roll.title ?? 'no title') : 'Left over'}
        <small>
          {count(frames, 'frame')}, {first ? 'in no page yet' : 'in no page'}{' '}
          {first ? <HeadingLinks roll={roll} onAdd={onAdd} /> : null}
        </small>
      </p>
      <p className="spread-address">
        <RouteLink to={{ view: 'binders', params: { file: String(roll.id) } }}>File the roll</RouteLink>
      </p>
    </div>
  );
}

function Number({ roll, first }: { readonly roll: Roll; readonly first: boolean }) {
  return first ? <h1>{roll.number}</h1> : <h2>{roll.number}</h2>;
}

function HeadingLinks({ roll, onAdd }: { readonly roll: Roll; readonly onAdd: () => void }) {
  return (
    <>
      <RouteLink to={{ view: 'sheets', params: { roll: String(roll.id) } }}>Contact sheet</RouteLink>{' '}
      <Button look="quiet" onPress={onAdd}>
        Add frames
      </Button>
    </>
  );
}
