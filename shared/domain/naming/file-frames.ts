import type { MappedFrame, ScanFile } from './scan-mapping.ts';
import { WHOLE } from './scan-mapping.ts';

/**
 * Two frames of 18×24 mm beside each other measure 37 to 38 × 24 mm, a ratio of about 1.5; one alone turned on its
 * side 24×18, a ratio of 1.33. Our choice: pairs begin half way between 1.33 and the narrowest pair of the test rolls.
 */
const PAIR_RATIO = 1.37;

/**
 * Whether a picture is wide enough for two half frames beside each other; null when its size is not known. A tall
 * picture is one half frame as the camera takes it.
 */
export function isPairShaped(file: ScanFile): boolean | null {
  if (file.width === undefined || file.height === undefined) return null;
  return file.width / file.height >= PAIR_RATIO;
}

/** One frame that fills the picture. */
export function wholeFrame(label: string): readonly MappedFrame[] {
  return [{ label, page: 0, region: WHOLE }];
}

/** The frames of a picture in equal slices along its longer side, first at the left or at the top. */
export function sliceFrames(labels: readonly string[], file: ScanFile): readonly MappedFrame[] {
  const upright = (file.height ?? 0) > (file.width ?? 0);
  const size = 1 / labels.length;
  return labels.map((label, at) => ({
    label,
    page: 0,
    region: upright
      ? { x: 0, y: at * size, width: 1, height: size }
      : { x: at * size, y: 0, width: size, height: 1 },
  }));
}

/** One frame on each page of a file, as far as both go. */
export function pageFrames(labels: readonly string[], pages: number): readonly MappedFrame[] {
  return labels.slice(0, pages).map((label, page) => ({ label, page, region: WHOLE }));
}
