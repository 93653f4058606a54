import { useEffect, useState } from 'react';
import type { LookOfFrame } from '../../shared/api/methods/look-methods.ts';
import { previewAddress } from '../../shared/api/preview-url.ts';
import { lightAt } from '../../shared/domain/colour/light-at.ts';
import {
  applyLook,
  greyFromClick,
  makePositiveLook,
  UNADJUSTED,
  type Adjust,
} from '../../shared/domain/colour/look.ts';
import type { Picture } from '../../shared/domain/colour/picture.ts';
import { useArchive } from '../api/use-query.ts';

/** Pixels that are painted anew for every move of a hand, on the longer side. Our choice: about 15 ms a time. */
const PAINTED_PX = 1000;

/** A frame's look while it is being adjusted: painted at once in the window, kept by the archive when asked to. */
export interface Looking {
  /** Undefined until the archive has answered; it measures a roll first that it never saw. */
  readonly look: LookOfFrame | undefined;
  readonly error: Error | null;
  /** As it is painted. */
  readonly adjust: Adjust;
  /** As the archive keeps it. */
  readonly kept: Adjust;
  readonly changed: boolean;
  set(change: Partial<Adjust>): void;
  /** Back to what is kept. */
  leave(): void;
  /** The scan as it is painted on, once it is here. */
  readonly scan: Picture | null;
  /** The canvas that shows the frame while it is adjusted. */
  readonly canvas: HTMLCanvasElement | null;
  readonly setCanvas: (canvas: HTMLCanvasElement | null) => void;
  /** Makes the place grey; in fractions of the upright scan. */
  pick(x: number, y: number): void;
}

/** The look of a frame to be adjusted; nothing is fetched while `open` is false. */
export function useLook(frameId: number, open: boolean): Looking {
  const { data: look, error } = useArchive('looks.ofFrame', { frameId }, { when: open });
  const [draft, setDraft] = useState<{ frameId: number; adjust: Adjust } | null>(null);
  const [canvas, setCanvas] = useState<HTMLCanvasElement | null>(null);
  const scan = useScan(open ? (look?.scanned ?? null) : null);
  const kept = look?.frame ?? look?.roll ?? UNADJUSTED;
  const adjust = draft !== null && draft.frameId === frameId ? draft.adjust : kept;
  const rendering = look?.rendering ?? null;

  useEffect(() => {
    if (canvas === null || scan === null || rendering === null) return undefined;
    // One painting a frame of the screen at most, however fast the hand is.
    const next = requestAnimationFrame(() =>
      paint(canvas, applyLook(scan, makePositiveLook(rendering, adjust))),
    );
    return () => cancelAnimationFrame(next);
  }, [canvas, scan, rendering, adjust]);

  const change = (part: Partial<Adjust>) => setDraft({ frameId, adjust: { ...adjust, ...part } });
  return {
    look,
    error,
    adjust,
    kept,
    changed: !isSame(adjust, kept),
    set: change,
    leave: () => setDraft(null),
    scan,
    canvas,
    setCanvas,
    pick: (x, y) => {
      if (scan !== null && rendering !== null)
        change({ grey: greyFromClick(rendering, lightAt(scan, x, y)) });
    },
  };
}

/** Whether two looks are one. */
export function isSame(one: Adjust, other: Adjust): boolean {
  return (
    one.brightnessStops === other.brightnessStops &&
    one.contrast === other.contrast &&
    one.grey.every((factor, channel) => factor === other.grey[channel])
  );
}

/** The pixels of a picture as scanned, small enough to be painted while a hand moves; null until they are here. */
function useScan(pictureId: string | null): Picture | null {
  const [loaded, setLoaded] = useState<{ pictureId: string; picture: Picture } | null>(null);
  useEffect(() => {
    if (pictureId === null) return undefined;
    let gone = false;
    const image = new Image();
    image.src = previewAddress(pictureId, 'large');
    image
      .decode()
      .then(() => {
        const picture = pixelsOf(image);
        if (!gone && picture !== null) setLoaded({ pictureId, picture });
      })
      // The frame says by itself that its picture is not there.
      .catch(() => undefined);
    return () => {
      gone = true;
    };
  }, [pictureId]);
  return loaded !== null && loaded.pictureId === pictureId ? loaded.picture : null;
}

function pixelsOf(image: HTMLImageElement): Picture | null {
  const scale = Math.min(1, PAINTED_PX / Math.max(image.naturalWidth, image.naturalHeight, 1));
  const width = Math.max(1, Math.round(image.naturalWidth * scale));
  const height = Math.max(1, Math.round(image.naturalHeight * scale));
  const drawing = document.createElement('canvas');
  drawing.width = width;
  drawing.height = height;
  const context = drawing.getContext('2d', { willReadFrequently: true });
  if (context === null) return null;
  context.drawImage(image, 0, 0, width, height);
  const { data } = context.getImageData(0, 0, width, height);
  const samples = new Uint8Array(width * height * 3);
  for (let at = 0; at < width * height; at += 1) {
    samples[at * 3] = data[at * 4] ?? 0;
    samples[at * 3 + 1] = data[at * 4 + 1] ?? 0;
    samples[at * 3 + 2] = data[at * 4 + 2] ?? 0;
  }
  return { width, height, channels: 3, samples, encoding: 'srgb' };
}

function paint(canvas: HTMLCanvasElement, { width, height, samples }: Picture): void {
  if (canvas.width !== width || canvas.height !== height) {
    canvas.width = width;
    canvas.height = height;
  }
  const context = canvas.getContext('2d');
  if (context === null) return;
  const shown = context.createImageData(width, height);
  for (let at = 0; at < width * height; at += 1) {
    shown.data[at * 4] = samples[at * 3] ?? 0;
    shown.data[at * 4 + 1] = samples[at * 3 + 1] ?? 0;
    shown.data[at * 4 + 2] = samples[at * 3 + 2] ?? 0;
    shown.data[at * 4 + 3] = 255;
  }
  context.putImageData(shown, 0, 0);
}
