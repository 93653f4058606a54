import type { Frame } from '../../shared/api/methods/film-methods.ts';
import { describeFrame, drawnFrame, quarterTurn, uprightPicture } from '../film/drawn-frame.ts';
import { frameGeometry } from '../film/film-geometry.ts';
import { FilmPicture } from '../film/film-picture.tsx';

/** The frame's best scan, upright on black; a clear frame where there is none. */
export function CardPicture({ frame, filmFormat }: { readonly frame: Frame; readonly filmFormat: string }) {
  const best = frame.versions.find(({ state }) => state !== 'refused') ?? null;
  const { widthMm, heightMm } = frameGeometry(frame.frameFormat, filmFormat);
  const scanned =
    best === null || best.width === null || best.height === null
      ? { width: widthMm, height: heightMm }
      : { width: best.width * best.region.width, height: best.height * best.region.height };
  const lying = best !== null && quarterTurn(frame.turned + best.turned) % 180 !== 0;
  const shown = lying ? { width: scanned.height, height: scanned.width } : scanned;
  return (
    <div className="origin-picture" role="img" aria-label={describeFrame(drawnFrame(frame, filmFormat))}>
      {best === null ? (
        <span className="origin-clear" style={{ aspectRatio: `${widthMm} / ${heightMm}` }}>
          no scan yet
        </span>
      ) : (
        <span
          className="origin-gate"
          style={{
            aspectRatio: `${shown.width} / ${shown.height}`,
            '--wide-by-high': shown.width / shown.height,
          }}
        >
          <FilmPicture
            picture={uprightPicture(frame, best, 'large')}
            width={shown.width}
            height={shown.height}
            loading="eager"
          />
        </span>
      )}
    </div>
  );
}
