import type { Light, SamplePicture } from './sample-scans.ts';

/** Lights of the invented outings. */
const MORNING: Light = { sky: '#8fb4d8', ground: '#b79a6a' };
const NOON: Light = { sky: '#6fa3d2', ground: '#8f9a66' };
/** A field fills the picture: no sky to be blue. */
const MEADOW: Light = { sky: '#9aa27a', ground: '#94925c' };
const EVENING: Light = { sky: '#e8a35c', ground: '#7c5a6b' };

/** A run of frames of one outing: what was seen, from where. */
interface Sight {
  readonly photograph: string;
  readonly caption: string;
  readonly light: Light | null;
  readonly frames: number;
}

const COAST: readonly Sight[] = [
  { photograph: 'harbour', caption: 'Fishing boats at low tide', light: MORNING, frames: 8 },
  { photograph: 'harbour', caption: 'Łódź café by the quay, closed', light: NOON, frames: 5 },
  { photograph: 'river', caption: 'The ferry waits below the rocks', light: NOON, frames: 7 },
  { photograph: 'flock', caption: 'Sheep on the sea wall', light: MEADOW, frames: 8 },
  { photograph: 'mountains', caption: 'First snow seen from the road', light: EVENING, frames: 6 },
  { photograph: 'hut', caption: 'The net store, evening', light: EVENING, frames: 4 },
];

const GARDEN: readonly Sight[] = [
  { photograph: 'thistle', caption: 'Dry stem by the window', light: null, frames: 2 },
  { photograph: 'flower', caption: 'Seed head by the window', light: null, frames: 2 },
  { photograph: 'hut', caption: 'The hut across the field', light: null, frames: 3 },
  { photograph: 'mountains', caption: 'The ridge before rain', light: null, frames: 3 },
  { photograph: 'river', caption: 'The boat at the bend', light: null, frames: 2 },
];

const VALLEY: readonly Sight[] = [
  { photograph: 'hut', caption: 'The empty house', light: NOON, frames: 7 },
  { photograph: 'flock', caption: 'Lambs in March grass', light: MEADOW, frames: 6 },
  { photograph: 'river', caption: 'The river bend from the path', light: EVENING, frames: 6 },
  { photograph: 'mountains', caption: 'Pines below the glacier', light: MORNING, frames: 5 },
];

/** The pictures of a roll, frame by frame: each run pans over its photograph and comes closer. */
function picturesOf(sights: readonly Sight[]): (SamplePicture & { readonly caption: string })[] {
  return sights.flatMap(({ photograph, caption, light, frames }) =>
    Array.from({ length: frames }, (_frame, at) => ({
      photograph,
      caption,
      light,
      left:
        frames === 1
          ? 0.5
          : ((at * 5) % frames) / (frames - 1 || 1) > 1
            ? 1
            : ((at * 5) % frames) / (frames - 1 || 1),
      top: 0.35 + (0.3 * ((at * 3) % 4)) / 3,
      size: 0.95 - 0.4 * (((at * 2) % frames) / frames),
    })),
  );
}

export const COAST_ROLL = picturesOf(COAST);
export const GARDEN_ROLL = picturesOf(GARDEN);
export const VALLEY_ROLL = picturesOf(VALLEY);
