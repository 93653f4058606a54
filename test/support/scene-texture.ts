import { between, seededRandom } from './seeded-random.ts';

/** How one frame of a burst differs from the scene's first: a hand that moved, things that moved, new grain. */
export interface Shot {
  readonly shiftX: number;
  readonly shiftY: number;
  readonly turnDegrees: number;
  readonly zoom: number;
  /** Which moment: people, cars, birds and leaves stand elsewhere at another. */
  readonly moment: number;
}

const TILE = 512;
/** A tile of cloudy noise, about −1 to 1, that repeats without a seam; another for every scene. */
function noiseTile(random: () => number): Float32Array {
  const keep = 0.45 + 0.3 * random();
  let side = 8;
  let tile = Float32Array.from({ length: side * side }, () => random() * 2 - 1);
  let [strength, total] = [1, 1];
  while (side < TILE) {
    strength *= keep;
    total += strength;
    const fine = side * 2;
    const finer = new Float32Array(fine * fine);
    for (let y = 0; y < fine; y++) {
      const upper = (y >> 1) * side;
      const lower = (((y + 1) >> 1) % side) * side;
      for (let x = 0; x < fine; x++) {
        const [left, right] = [x >> 1, ((x + 1) >> 1) % side];
        const sum =
          (tile[upper + left] ?? 0) +
          (tile[upper + right] ?? 0) +
          (tile[lower + left] ?? 0) +
          (tile[lower + right] ?? 0);
        finer[y * fine + x] = sum / 4 + (random() * 2 - 1) * strength;
      }
    }
    [tile, side] = [finer, fine];
  }
  return tile.map((value) => value / total);
}

/** `base` with the scene's own texture, which moves with the camera, and with new grain. */
export function addTexture(
  base: Uint8Array,
  width: number,
  height: number,
  seed: number,
  shot: Shot,
): Uint8Array {
  const random = seededRandom(seed * 17 + 5);
  const tile = noiseTile(random);
  const [scale, strength, originX, originY] = [
    between(random, 0.5, 2),
    between(random, 15, 60),
    random() * TILE,
    random() * TILE,
  ];
  const turn = between(random, -Math.PI, Math.PI) - (shot.turnDegrees * Math.PI) / 180;
  const [cos, sin] = [(Math.cos(turn) * scale) / shot.zoom, (Math.sin(turn) * scale) / shot.zoom];
  const grainRandom = seededRandom(seed * 101 + shot.moment * 9973 + 3);
  const grain = between(random, 4, 12);
  const out = new Uint8Array(base.length);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const [px, py] = [x - width / 2 - shot.shiftX * width, y - height / 2 - shot.shiftY * height];
      const tx = (px * cos - py * sin + originX) & (TILE - 1);
      const ty = (px * sin + py * cos + originY) & (TILE - 1);
      const value = base[y * width + x] ?? 0;
      const texture = value < 110 ? (tile[ty * TILE + tx] ?? 0) : (tile[tx * TILE + (TILE - 1 - ty)] ?? 0);
      // The sum of three even numbers (here three bytes of one) is near enough to grain's bell.
      const bits = grainRandom() * 4_294_967_296;
      const speck = (((bits & 255) + ((bits >>> 8) & 255) + ((bits >>> 16) & 255)) / 255 - 1.5) * grain;
      out[y * width + x] = Math.min(255, Math.max(0, Math.round(value + texture * strength * 2 + speck)));
    }
  }
  return out;
}
