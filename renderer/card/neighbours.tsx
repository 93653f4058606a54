import type { FrameOrigin } from '../../shared/api/methods/origin-methods.ts';
import { describeFrame, drawnFrame } from '../film/drawn-frame.ts';
import { FilmFrame } from '../film/film-frame.tsx';
import { stripLengthMm } from '../film/film-geometry.ts';
import { edgeStyle, filmScale } from '../film/film-scale.ts';
import { RouteLink } from '../state/view-state.tsx';

/** For the edge of the film, px per mm; the strip itself is as wide as the card. */
const ABOUT_PX_PER_MM = 2.8;

/** The frame in the light between its neighbours on the film; each of them leads to its own card. */
export function Neighbours({ origin }: { readonly origin: FrameOrigin }) {
  const { frame, roll, along } = origin;
  const longMm = stripLengthMm(
    roll.filmFormat,
    along.map(({ frameFormat }) => frameFormat),
  );
  return (
    <nav className="origin-film" aria-label="Neighbours on the roll">
      <div className="film-strip" style={{ ...filmScale(ABOUT_PX_PER_MM), '--long': longMm }}>
        {along.map((each) => {
          const drawn = drawnFrame(each, roll.filmFormat);
          const here = each.id === frame.id;
          return (
            <RouteLink
              key={each.id}
              to={{ view: 'card', ids: [each.id] }}
              className="origin-neighbour"
              {...(here ? { 'aria-current': 'true' } : {})}
            >
              <span className="unseen">{describeFrame(drawn)}</span>
              <FilmFrame
                frame={drawn}
                filmFormat={roll.filmFormat}
                edge={edgeStyle(ABOUT_PX_PER_MM, true)}
                edgeText={roll.stock?.name ?? null}
                lit={here}
                dimmed={!here}
              />
            </RouteLink>
          );
        })}
      </div>
    </nav>
  );
}
