import { useRef, useState, type PointerEvent, type Ref } from 'react';
import type { Frame, FrameVersion } from '../../shared/api/methods/film-methods.ts';
import { pictureOnFilm, quarterTurn } from '../film/drawn-frame.ts';
import { frameGeometry } from '../film/film-geometry.ts';
import { FilmPicture } from '../film/film-picture.tsx';
import { PencilMarks } from '../film/pencil-marks.tsx';
import { cropBetween, isMeant, pointOnFilm, type Held } from './crop-geometry.ts';
import { placeInBox, type PlaceInScan } from './pick-geometry.ts';
import type { Crop } from './use-marks.ts';

export interface FrameStageProps {
  readonly frame: Frame;
  readonly version: FrameVersion | null;
  readonly filmFormat: string;
  readonly room: { readonly widthPx: number; readonly heightPx: number };
  /** The crop being drawn, or null while none is. */
  readonly crop: Crop | null;
  readonly onCrop: (crop: Crop) => void;
  /** Given while the frame is adjusted: the canvas that shows it. */
  readonly canvas?: Ref<HTMLCanvasElement> | undefined;
  /** Given while something grey is picked: the pointer is there, or was pressed there. */
  readonly onPick?: ((place: PlaceInScan, pressed: boolean) => void) | undefined;
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
export function FrameStage(props: FrameStageProps) {
  const { frame, version, filmFormat, room, crop, onCrop, canvas, onPick } = props;
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
  function point(event: PointerEvent, pressed: boolean): void {
    const { target } = event;
    if (onPick === undefined || !(target instanceof HTMLCanvasElement)) return;
    // The offset is in the canvas's own coordinates, before it is turned and mirrored.
    const at = { x: event.nativeEvent.offsetX, y: event.nativeEvent.offsetY };
    const found = placeInBox(at, { width: target.clientWidth, height: target.clientHeight }, target);
    if (found !== null) onPick(found, pressed);
  }
  function grab(event: PointerEvent<HTMLDivElement>): void {
    if (onPick !== undefined && event.button === 0) return point(event, true);
    if (crop === null || event.button !== 0) return;
    event.currentTarget.setPointerCapture(event.pointerId);
    setFrom(pointOf(event));
  }
  function drag(event: PointerEvent): void {
    if (onPick !== undefined) return point(event, false);
    const to = from === null ? null : pointOf(event);
    if (from === null || to === null) return;
    const drawn = cropBetween(from, to);
    if (isMeant(drawn)) onCrop(drawn);
  }
  const marks = crop === null ? frame.marks : frame.marks.filter(({ kind }) => kind !== 'crop');
  return (
    <div
      ref={place}
      className={stageClass(crop !== null, onPick !== undefined)}
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
            canvas={canvas}
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

function stageClass(cropping: boolean, picking: boolean): string {
  if (cropping) return 'frame-stage frame-stage-cropping';
  return picking ? 'frame-stage frame-stage-picking' : 'frame-stage';
}
