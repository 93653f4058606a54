import { useRef, useState, type PointerEvent } from 'react';
import type { Frame, FrameVersion } from '../../shared/api/methods/film-methods.ts';
import { pictureOnFilm, quarterTurn } from '../film/drawn-frame.ts';
import { frameGeometry } from '../film/film-geometry.ts';
import { FilmPicture } from '../film/film-picture.tsx';
import { PencilMarks } from '../film/pencil-marks.tsx';
import { cropBetween, isMeant, pointOnFilm, type Held } from './crop-geometry.ts';
import type { Crop } from './use-marks.ts';

export interface FrameStageProps {
  readonly frame: Frame;
  readonly version: FrameVersion | null;
  readonly filmFormat: string;
  readonly room: { readonly widthPx: number; readonly heightPx: number };
  /** The crop being drawn, or null while none is. */
  readonly crop: Crop | null;
  readonly onCrop: (crop: Crop) => void;
}

/** About how thick the pencil is on a frame that is looked at, px: it must not hide what it marks. Our choice. */
const PENCIL_PX = 5;

/** How the version of a frame is held, so that it stands upright as it was recorded. */
export function heldOf(frame: Frame, version: FrameVersion | null, filmFormat: string): Held {
  if (!version) return 'lying';
  const recorded = quarterTurn(frame.turned + version.turned);
  const drawn = pictureOnFilm(frame, version, filmFormat, 'large').turned;
  return quarterTurn(drawn - recorded) === 0 ? 'lying' : 'turned back';
}

/** A frame as large as there is room, upright, on black, with its pencil marks. */
export function FrameStage({ frame, version, filmFormat, room, crop, onCrop }: FrameStageProps) {
  const { widthMm, heightMm } = frameGeometry(frame.frameFormat, filmFormat);
  const held = heldOf(frame, version, filmFormat);
  const shown =
    held === 'lying' ? { width: widthMm, height: heightMm } : { width: heightMm, height: widthMm };
  const scale = Math.min(room.widthPx / shown.width, room.heightPx / shown.height);
  const place = useRef<HTMLDivElement>(null);
  const [from, setFrom] = useState<{ x: number; y: number } | null>(null);

  function pointOf(event: PointerEvent): { x: number; y: number } | null {
    const box = place.current?.getBoundingClientRect();
    if (!box || box.width === 0 || box.height === 0) return null;
    return pointOnFilm(held, {
      u: (event.clientX - box.left) / box.width,
      v: (event.clientY - box.top) / box.height,
    });
  }
  function grab(event: PointerEvent<HTMLDivElement>): void {
    if (crop === null || event.button !== 0) return;
    event.currentTarget.setPointerCapture(event.pointerId);
    setFrom(pointOf(event));
  }
  function drag(event: PointerEvent): void {
    const to = from === null ? null : pointOf(event);
    if (from === null || to === null) return;
    const drawn = cropBetween(from, to);
    if (isMeant(drawn)) onCrop(drawn);
  }
  const marks = crop === null ? frame.marks : frame.marks.filter(({ kind }) => kind !== 'crop');
  return (
    <div
      ref={place}
      className={crop === null ? 'frame-stage' : 'frame-stage frame-stage-cropping'}
      style={{ width: shown.width * scale, height: shown.height * scale }}
      role="presentation"
      onPointerDown={grab}
      onPointerMove={drag}
      onPointerUp={() => setFrom(null)}
    >
      <div
        className="frame-stage-gate"
        style={{
          width: widthMm * scale,
          height: heightMm * scale,
          transform: held === 'lying' ? 'translate(-50%, -50%)' : 'translate(-50%, -50%) rotate(-90deg)',
        }}
      >
        {version === null ? (
          <span className="film-clear">no scan</span>
        ) : (
          <FilmPicture
            picture={pictureOnFilm(frame, version, filmFormat, 'large')}
            width={widthMm}
            height={heightMm}
            loading="eager"
          />
        )}
        <PencilMarks
          key={frame.id}
          marks={marks}
          seed={String(frame.id)}
          widthMm={widthMm}
          heightMm={heightMm}
          thickness={PENCIL_PX / scale}
        />
        {crop === null ? null : (
          <span
            className="frame-stage-crop"
            style={{
              left: `${100 * crop.x}%`,
              top: `${100 * crop.y}%`,
              width: `${100 * crop.width}%`,
              height: `${100 * crop.height}%`,
            }}
          />
        )}
      </div>
    </div>
  );
}
