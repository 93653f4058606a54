import { useEffect, useId, useRef, useState } from 'react';
import type { PictureHit } from '../../shared/api/methods/look-up-methods.ts';
import { previewAddress } from '../../shared/api/preview-url.ts';
import { overlayMatrix } from './overlay-matrix.ts';

export interface OverlayProps {
  readonly hit: PictureHit;
  /** The picture that was looked for, as the window can show it. */
  readonly asked: string;
}

/** Three to two, until the frame's picture says how it is. */
const UNTIL_LOADED = 1.5;

/** The frame with the picture that was looked for laid over it where it was found, to judge by; and its outline. */
export function Overlay({ hit, asked }: OverlayProps) {
  const { comparedWith, corners, homography, negative } = hit;
  const { frame } = comparedWith;
  const id = useId();
  const stage = useRef<HTMLDivElement>(null);
  const [widthPx, setWidthPx] = useState(0);
  const [wideByHigh, setWideByHigh] = useState(UNTIL_LOADED);
  const [strength, setStrength] = useState(0);
  const [held, setHeld] = useState(false);
  const heightPx = widthPx / wideByHigh;
  useEffect(() => {
    const here = stage.current;
    if (!here) return undefined;
    const observer = new ResizeObserver(() => setWidthPx(here.clientWidth));
    observer.observe(here);
    return () => observer.disconnect();
  }, []);
  const shown = held ? 100 : strength;
  return (
    <div className="which-compare">
      <div
        ref={stage}
        className="which-picture"
        role="presentation"
        style={{ aspectRatio: String(wideByHigh) }}
        onPointerDown={() => setHeld(true)}
        onPointerUp={() => setHeld(false)}
        onPointerLeave={() => setHeld(false)}
      >
        <img
          className="which-frame"
          src={previewAddress(comparedWith.pictureId, 'large')}
          alt={`Frame ${hit.frame} of roll ${hit.roll}`}
          draggable={false}
          style={{
            width: `${100 / frame.width}%`,
            height: `${100 / frame.height}%`,
            left: `${(-100 * frame.x) / frame.width}%`,
            top: `${(-100 * frame.y) / frame.height}%`,
          }}
          onLoad={({ currentTarget: { naturalWidth, naturalHeight } }) => {
            if (naturalHeight > 0)
              setWideByHigh((naturalWidth * frame.width) / (naturalHeight * frame.height));
          }}
        />
        {corners === null || widthPx === 0 ? null : (
          <img
            className="which-laid"
            src={asked}
            alt=""
            draggable={false}
            style={{
              opacity: shown / 100,
              transform: overlayMatrix(homography, widthPx, heightPx),
              ...(negative ? { filter: 'invert(1)' } : {}),
            }}
          />
        )}
        {corners === null ? null : (
          <svg className="which-outline" viewBox="0 0 1 1" preserveAspectRatio="none" aria-hidden="true">
            <polygon points={corners.map(({ x, y }) => `${x},${y}`).join(' ')} />
          </svg>
        )}
      </div>
      {corners === null ? null : (
        <div className="which-slider">
          <label htmlFor={id}>Lay the picture over the frame</label>
          <input
            id={id}
            type="range"
            min="0"
            max="100"
            step="5"
            value={strength}
            onChange={(event) => setStrength(Number(event.currentTarget.value))}
          />
          <span>or hold the frame down</span>
        </div>
      )}
    </div>
  );
}
