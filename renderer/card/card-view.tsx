import { describeError } from '../../shared/text/describe-error.ts';
import { useArchive } from '../api/use-query.ts';
import type { Route } from '../state/route.ts';
import { RouteLink } from '../state/view-state.tsx';
import { Notice } from '../ui/notice.tsx';
import { OriginCard } from './origin-card.tsx';
import './card-view.css';

/** The index card of one frame: where it came from and where it lies. `#/card/<frame id>` */
export function CardView({ route }: { readonly route: Route }) {
  const frameId = Number(route.ids[0]);
  const named = Number.isInteger(frameId) && frameId > 0;
  const { data, error } = useArchive('frames.origin', { frameId }, { when: named, keepFormer: true });
  if (error || !named) {
    return (
      <div className="card-trouble">
        <Notice
          kind="failed"
          {...(error
            ? describeError(error)
            : {
                title: 'There is no such frame',
                detail: 'The address names none.',
                advice: 'Look for it by words or by picture.',
              })}
          actions={<RouteLink to={{ view: 'find' }}>Find a frame</RouteLink>}
        />
      </div>
    );
  }
  if (!data) return <div className="card-view" aria-busy="true" />;
  return <OriginCard origin={data} />;
}
