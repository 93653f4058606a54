import type { CSSProperties, Ref } from 'react';
import type { DrawnPicture } from './drawn-frame.ts';

export interface FilmPictureProps {
  readonly picture: DrawnPicture;
  /** The place it is shown in, in any unit: only their proportion counts. */
  readonly width: number;
  readonly height: number;
  /** `auto` decodes when it can be seen; `eager` for a picture that is looked at. */
  readonly loading?: 'lazy' | 'eager';
  /** A canvas in its place that shows the same picture, painted by whoever gives it. */
  readonly canvas?: Ref<HTMLCanvasElement> | undefined;
}

/**
 * A picture, or a part of one, mirrored and turned, shown whole in the middle of its place, which it fills to the
 * nearer edges. It is for the eye: the frame around it has the name.
 */
export function FilmPicture({ picture, width, height, loading = 'lazy', canvas }: FilmPictureProps) {
  return (
    <span className="film-picture" style={partStyle(picture, width, height)} aria-hidden="true">
      {canvas === undefined ? (
        <img
          src={picture.address}
          alt=""
          loading={loading}
          decoding="async"
          draggable={false}
          style={pictureStyle(picture)}
        />
      ) : (
        <canvas ref={canvas} style={pictureStyle(picture)} />
      )}
    </span>
  );
}

function isWhole({ region }: DrawnPicture): boolean {
  return region.x === 0 && region.y === 0 && region.width === 1 && region.height === 1;
}

/** The box of the part, before it is turned, in per cent of the place. */
function partStyle(picture: DrawnPicture, width: number, height: number): CSSProperties {
  const lying = picture.turned === 90 || picture.turned === 270;
  const [placeWidth, placeHeight] = lying ? [height, width] : [width, height];
  const { widthPx, heightPx, region } = picture;
  const part =
    isWhole(picture) || widthPx === null || heightPx === null
      ? { width: placeWidth, height: placeHeight }
      : { width: widthPx * region.width, height: heightPx * region.height };
  const scale = Math.min(placeWidth / part.width, placeHeight / part.height);
  const turns = [
    'translate(-50%, -50%)',
    ...(picture.turned === 0 ? [] : [`rotate(${picture.turned}deg)`]),
    ...(picture.mirrored ? ['scaleX(-1)'] : []),
  ];
  return {
    width: `${(100 * part.width * scale) / width}%`,
    height: `${(100 * part.height * scale) / height}%`,
    transform: turns.join(' '),
  };
}

/** The whole picture, moved so that the part is in the box. */
function pictureStyle(picture: DrawnPicture): CSSProperties {
  if (isWhole(picture)) return { width: '100%', height: '100%', objectFit: 'contain' };
  const { x, y, width, height } = picture.region;
  return {
    width: `${100 / width}%`,
    height: `${100 / height}%`,
    left: `${(-100 * x) / width}%`,
    top: `${(-100 * y) / height}%`,
    objectFit: 'fill',
  };
}
