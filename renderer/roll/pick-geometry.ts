/** A place of an upright scan, in fractions of it. */
export interface PlaceInScan {
  readonly x: number;
  readonly y: number;
}

/** Where picking something grey begins. */
export const FIRST_PLACE: PlaceInScan = { x: 0.5, y: 0.5 };

const STEP = 0.02;
const FINE_STEP = 0.004;

const WAYS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

/**
 * The place after an arrow key, as seen on the screen, on a scan that is shown mirrored and then turned clockwise by
 * `turned` degrees; Shift goes in small steps. Null for any other key.
 */
export function placeByKey(
  place: PlaceInScan,
  key: string,
  fine: boolean,
  { turned, mirrored }: { readonly turned: number; readonly mirrored: boolean },
): PlaceInScan | null {
  const way = WAYS[key];
  if (way === undefined) return null;
  const size = fine ? FINE_STEP : STEP;
  let [dx, dy] = way;
  for (let quarter = 0; quarter < turned / 90; quarter += 1) [dx, dy] = [dy, -dx];
  if (mirrored) dx = -dx;
  return { x: clamp(place.x + dx * size), y: clamp(place.y + dy * size) };
}

/**
 * The place of the picture under a point of its canvas, which shows it whole in the middle of its box; null beside it.
 * All in one unit, the point from the box's upper left corner.
 */
export function placeInBox(
  point: { readonly x: number; readonly y: number },
  box: { readonly width: number; readonly height: number },
  picture: { readonly width: number; readonly height: number },
): PlaceInScan | null {
  const scale = Math.min(box.width / picture.width, box.height / picture.height);
  if (!(scale > 0)) return null;
  const x = (point.x - (box.width - picture.width * scale) / 2) / (picture.width * scale);
  const y = (point.y - (box.height - picture.height * scale) / 2) / (picture.height * scale);
  return x >= 0 && x <= 1 && y >= 0 && y <= 1 ? { x, y } : null;
}

function clamp(value: number): number {
  return Math.min(1, Math.max(0, value));
}
