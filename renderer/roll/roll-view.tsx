import { describeError } from '../../shared/text/describe-error.ts';
import { useArchive } from '../api/use-query.ts';
import type { Route } from '../state/route.ts';
import { RouteLink } from '../state/view-state.tsx';
import { Notice } from '../ui/notice.tsx';
import { RollDesk } from './roll-desk.tsx';
import { useRollPages } from './use-roll-pages.ts';
import './roll-view.css';

/** One roll: as it lies in its pages, with its notes, its card and the slip that writes to its frames. */
export function RollView({ route }: { readonly route: Route }) {
  const id = Number(route.ids[0]);
  const known = Number.isInteger(id) && id > 0;
  const { data: roll, error } = useArchive('rolls.get', { id }, { when: known });
  const { data: frames, error: framesError } = useArchive('frames.ofRoll', { rollId: id }, { when: known });
  const pages = useRollPages(roll?.pages ?? []);
  const failure = error ?? framesError;
  if (failure || !known) {
    return (
      <div className="roll-view-trouble">
        <Notice
          kind="failed"
          {...(failure
            ? describeError(failure)
            : {
                title: 'There is no such roll',
                detail: 'The address names none.',
                advice: 'Choose one from the list.',
              })}
          actions={<RouteLink to={{ view: 'rolls' }}>Every roll</RouteLink>}
        />
      </div>
    );
  }
  if (!roll || !frames || !pages) return <div className="roll-view" aria-busy="true" />;
  return <RollDesk key={roll.id} roll={roll} frames={frames} pages={pages} route={route} />;
}
