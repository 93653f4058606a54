import { useEffect, useRef } from 'react';
import { lightAt } from '../../shared/domain/colour/light-at.ts';
import { linearToSrgb } from '../../shared/domain/colour/srgb.ts';
import type { PlaceInScan } from './pick-geometry.ts';
import type { Looking } from './use-look.ts';

/** Pixels of the scan that are seen across the loupe, and how large each is. Our choice. */
const SEEN = 21;
const PIXEL_PX = 6;

/** What is under the pointer, enlarged, with its codes as shown. */
export function GreyLoupe({ looking, place }: { readonly looking: Looking; readonly place: PlaceInScan }) {
  const glass = useRef<HTMLCanvasElement>(null);
  const { canvas } = looking;
  useEffect(() => {
    let next = 0;
    const draw = () => {
      const context = glass.current?.getContext('2d');
      if (!context || canvas === null) return;
      const side = SEEN * PIXEL_PX;
      context.imageSmoothingEnabled = false;
      context.fillStyle = '#000';
      context.fillRect(0, 0, side, side);
      const left = Math.round(place.x * canvas.width - SEEN / 2);
      const top = Math.round(place.y * canvas.height - SEEN / 2);
      context.drawImage(canvas, left, top, SEEN, SEEN, 0, 0, side, side);
      context.strokeStyle = '#fff';
      context.strokeRect(side / 2 - PIXEL_PX * 1.5, side / 2 - PIXEL_PX * 1.5, PIXEL_PX * 3, PIXEL_PX * 3);
    };
    // A frame later than the picture itself, which is painted in the next one.
    next = requestAnimationFrame(() => {
      next = requestAnimationFrame(draw);
    });
    return () => cancelAnimationFrame(next);
  });
  const codes = codesAt(looking, place);
  return (
    <div className="grey-loupe">
      <canvas ref={glass} width={SEEN * PIXEL_PX} height={SEEN * PIXEL_PX} aria-hidden="true" />
      <p className="numbers">{codes === null ? '' : `As scanned: ${codes.join(' ')}`}</p>
    </div>
  );
}

function codesAt({ scan }: Looking, { x, y }: PlaceInScan): number[] | null {
  return scan === null ? null : lightAt(scan, x, y).map((light) => Math.round(255 * linearToSrgb(light)));
}
