import { useRef } from 'react';
import { useArchive } from '../api/use-query.ts';
import { describeFrame, drawnFrame } from '../film/drawn-frame.ts';
import { FilmFrame } from '../film/film-frame.tsx';
import { frameGeometry } from '../film/film-geometry.ts';
import { edgeStyle, filmScale } from '../film/film-scale.ts';
import { RouteLink } from '../state/view-state.tsx';
import { useNear } from './use-near.ts';

/** Large enough to know a picture again, px per mm. Our choice. */
const PX_PER_MM = 2.2;

/** The frames of one roll that went through a development, each leading to itself; fetched when they come near. */
export function DevelopedFrames({
  roll,
}: {
  readonly roll: { readonly id: number; readonly number: string };
}) {
  const place = useRef<HTMLElement>(null);
  const near = useNear(place);
  const { data: facts } = useArchive('rolls.get', { id: roll.id }, { when: near });
  const { data: frames } = useArchive('frames.ofRoll', { rollId: roll.id }, { when: near });
  return (
    <section ref={place} className="log-roll" aria-label={`Frames of ${roll.number}`}>
      <h3>
        <RouteLink to={{ view: 'rolls', ids: [roll.id] }}>{roll.number}</RouteLink>{' '}
        <span className="plan-words">
          {[facts?.title, facts?.stock?.name].filter(Boolean).join(', ')}
          {frames === undefined ? '' : `${facts?.title || facts?.stock ? ', ' : ''}${count(frames.length)}`}
        </span>
      </h3>
      {facts === undefined || frames === undefined ? null : (
        <ul className="log-frames" style={filmScale(PX_PER_MM)}>
          {frames.map((frame) => {
            const drawn = drawnFrame(frame, facts.filmFormat);
            const { perforated } = frameGeometry(frame.frameFormat, facts.filmFormat);
            return (
              <li key={frame.id}>
                <RouteLink
                  to={{ view: 'rolls', ids: [roll.id], params: { frame: String(frame.id) } }}
                  className="log-frame"
                >
                  <span className="unseen">{describeFrame(drawn)}</span>
                  <FilmFrame
                    frame={drawn}
                    filmFormat={facts.filmFormat}
                    edge={edgeStyle(PX_PER_MM, perforated)}
                  />
                </RouteLink>
              </li>
            );
          })}
        </ul>
      )}
    </section>
  );
}

function count(frames: number): string {
  if (frames === 0) return 'no frame noted yet';
  return `${frames} ${frames === 1 ? 'frame' : 'frames'}`;
}
