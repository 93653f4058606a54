import { ARCHIVE_BUDGET, findFeatures, type FeatureBudget, type Features } from './features.ts';
import { hashFrame, type FrameHash } from './frame-hash.ts';
import { PLAIN_KERNELS, type Kernels } from './kernels.ts';
import { DESCRIBED_LONG_SIDE, fitLuma, lumaFrom, type Luma } from './luma.ts';
import { neighbourhoodOf, normaliseLocally } from './normalise.ts';

/** What a picture is found by. */
export interface PictureDescription {
  /** In px, the longer one 512; the features' px are these. */
  readonly width: number;
  readonly height: number;
  readonly features: Features;
  readonly hash: FrameHash;
}

/** Describes a picture of bytes (0 to 255) or floats (0 to 1), best at 512 px on its long side. */
export function describePicture(
  pixels: Uint8Array | Float32Array,
  width: number,
  height: number,
  kernels: Kernels = PLAIN_KERNELS,
  budget: FeatureBudget = ARCHIVE_BUDGET,
): PictureDescription {
  return describeLuma(lumaFrom(pixels, width, height), budget, kernels);
}

/** Describes a stretched picture; a smaller or larger one is brought to 512 px first. */
export function describeLuma(luma: Luma, budget: FeatureBudget, kernels: Kernels): PictureDescription {
  const fitted = fitLuma(luma, DESCRIBED_LONG_SIDE);
  const normalised = normaliseLocally(fitted, neighbourhoodOf(DESCRIBED_LONG_SIDE));
  return {
    width: fitted.width,
    height: fitted.height,
    features: findFeatures(normalised, budget, kernels),
    hash: hashFrame(luma),
  };
}
