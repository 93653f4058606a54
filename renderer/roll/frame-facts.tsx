import type { Frame } from '../../shared/api/methods/film-methods.ts';
import { describeDate } from '../../shared/text/calendar-words.ts';
import { RouteLink } from '../state/view-state.tsx';
import { binderWords, exposureWords } from './roll-words.ts';

/** What is written down of a frame. */
export function FrameFacts({ frame }: { readonly frame: Frame }) {
  const { lies, outing } = frame;
  const facts: readonly (readonly [string, string])[] = [
    ['Exposure', exposureWords(frame)],
    ['Lens', frame.lens ?? ''],
    ['Filter', frame.filter ?? ''],
    ['Place', frame.place ?? ''],
    ['Taken', frame.taken === null ? '' : describeDate(frame.taken)],
    ['Tags', frame.tags.join(', ')],
    ['Faults', frame.faults.map(faultWords).join('; ')],
    ['Note', frame.note ?? ''],
  ];
  return (
    <dl className="roll-facts" aria-label="What is written down">
      {facts
        .filter(([, value]) => value !== '')
        .map(([label, value]) => (
          <div key={label}>
            <dt>{label}</dt>
            <dd>{value}</dd>
          </div>
        ))}
      {outing === null ? null : (
        <div>
          <dt>Outing</dt>
          <dd>
            <RouteLink to={{ view: 'rolls', params: { outing: String(outing.id) } }}>{outing.name}</RouteLink>
          </dd>
        </div>
      )}
      <div>
        <dt>Origin</dt>
        <dd>
          <RouteLink to={{ view: 'card', ids: [frame.id] }}>Index card</RouteLink>
        </dd>
      </div>
      {lies === null ? null : (
        <div>
          <dt>Lies in</dt>
          <dd>
            <RouteLink
              to={{ view: 'binders', ids: [lies.binderId, lies.pageId], params: { frame: String(frame.id) } }}
            >
              {binderWords(lies.binder)}, page {lies.page}
            </RouteLink>
            , row {lies.row}, place {lies.position}
          </dd>
        </div>
      )}
    </dl>
  );
}

function faultWords({ kind, edge, fromEdgeMm, note }: Frame['faults'][number]): string {
  const at = edge === null ? '' : `, ${edge} edge${fromEdgeMm === null ? '' : ` ${fromEdgeMm} mm in`}`;
  return `${kind}${at}${note === null ? '' : ` (${note})`}`;
}
