import sharp, { type Sharp } from 'sharp';
import { type Grey } from './scene.ts';
import { seededRandom } from './seeded-random.ts';

/** A picture as somebody might hold it, made from a frame, and the part of the frame that it shows. */
export interface Changed {
  readonly picture: Grey;
  /** Fractions of the frame; the bounding box where the picture is turned. */
  readonly region: {
    readonly x: number;
    readonly y: number;
    readonly width: number;
    readonly height: number;
  };
  readonly turned: 0 | 90 | 180 | 270;
  readonly mirrored: boolean;
  readonly negative: boolean;
}

type Change = (frame: Grey, random: () => number) => Promise<Changed>;

const WHOLE = { x: 0, y: 0, width: 1, height: 1 };
const PLAIN = { region: WHOLE, turned: 0, mirrored: false, negative: false } as const;

function open(frame: Grey) {
  return sharp(frame.data, { raw: { width: frame.width, height: frame.height, channels: 1 } });
}

async function grey(pipeline: Sharp): Promise<Grey> {
  const { data, info } = await pipeline.greyscale().raw().toBuffer({ resolveWithObject: true });
  return { data: new Uint8Array(data), width: info.width, height: info.height };
}

async function throughJpeg(frame: Grey, quality: number): Promise<Grey> {
  return grey(sharp(await open(frame).jpeg({ quality }).toBuffer()));
}

function mapTones(frame: Grey, map: (value: number) => number): Grey {
  const table = Uint8Array.from({ length: 256 }, (_, i) =>
    Math.round(Math.min(1, Math.max(0, map(i / 255))) * 255),
  );
  return { ...frame, data: frame.data.map((value) => table[value] ?? 0) };
}

const invert = (frame: Grey) => mapTones(frame, (v) => 0.08 + 0.84 * (1 - v));

async function small(frame: Grey): Promise<Grey> {
  return throughJpeg(await grey(open(frame).resize({ width: 320, height: 320, fit: 'inside' })), 60);
}

async function toned(frame: Grey, random: () => number): Promise<Grey> {
  const [power, lift, contrast] = [0.6 + random() * 0.9, random() * 0.18, 0.6 + random() * 0.4];
  return throughJpeg(
    mapTones(frame, (v) => lift + (1 - lift) * (0.5 + (v ** power - 0.5) * contrast)),
    75,
  );
}

function crop(share: number): Change {
  return async (frame, random) => {
    const stretched = 0.85 + random() * 0.3;
    const w = Math.min(1, Math.sqrt(share) * stretched);
    const h = Math.min(1, share / w);
    const [x, y] = [random() * (1 - w), random() * (1 - h)];
    const area = {
      left: Math.round(x * frame.width),
      top: Math.round(y * frame.height),
      width: Math.round(w * frame.width),
      height: Math.round(h * frame.height),
    };
    const picture = await throughJpeg(await grey(open(frame).extract(area)), 80);
    return { ...PLAIN, picture, region: { x, y, width: w, height: h } };
  };
}

async function framed(frame: Grey, random: () => number): Promise<Grey> {
  const tone = Math.round(random() < 0.5 ? 235 + random() * 20 : random() * 25);
  const side = Math.round(frame.width * (0.03 + random() * 0.09));
  const foot = side + Math.round(frame.height * (0.04 + random() * 0.12));
  const whole = { width: frame.width + 2 * side, height: frame.height + side + foot };
  const text = `<svg xmlns="http://www.w3.org/2000/svg" width="${whole.width}" height="${whole.height}"><text x="${side}" y="${whole.height - foot / 3}" font-family="serif" font-size="${Math.round(foot / 3)}" fill="${tone > 128 ? '#222' : '#ddd'}">No. ${Math.round(random() * 900)} at the river, summer</text></svg>`;
  const background = { r: tone, g: tone, b: tone };
  const extended = await open(frame)
    .toColourspace('srgb')
    .extend({ top: side, left: side, right: side, bottom: foot, background })
    .png()
    .toBuffer();
  return throughJpeg(await grey(sharp(extended).composite([{ input: Buffer.from(text) }])), 80);
}

/** A print photographed askew: perspective, uneven light, a table around it, blur, noise, JPEG. Simulated. */
async function photographed(frame: Grey, random: () => number): Promise<Grey> {
  const [width, height] = frame.width >= frame.height ? [900, 675] : [675, 900];
  const either = (most: number) => (random() * 2 - 1) * most;
  const turn = either(0.14);
  const size = (0.72 + random() * 0.2) * Math.min(width / frame.width, height / frame.height);
  const [tiltX, tiltY] = [either(0.22) / width, either(0.22) / height];
  const [offX, offY] = [either(0.04) * width, either(0.04) * height];
  const [lightX, lightY, table] = [either(0.35), either(0.35), 40 + random() * 170];
  const out = new Uint8Array(width * height);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const [px, py] = [x - width / 2 - offX, y - height / 2 - offY];
      const depth = 1 + px * tiltX + py * tiltY;
      const [qx, qy] = [px / depth / size, py / depth / size];
      const fx = qx * Math.cos(turn) - qy * Math.sin(turn) + frame.width / 2;
      const fy = qx * Math.sin(turn) + qy * Math.cos(turn) + frame.height / 2;
      const inside = fx >= 0 && fy >= 0 && fx < frame.width - 1 && fy < frame.height - 1;
      const value = inside
        ? bilinear(frame, fx, fy)
        : table + 14 * Math.sin(x * 0.11 + y * 0.023) + 8 * Math.sin(y * 0.31);
      const light = 0.85 + (lightX * px) / width + (lightY * py) / height;
      out[y * width + x] = Math.min(255, Math.max(0, value * light + (random() + random() - 1) * 9));
    }
  }
  const blurred = await grey(open({ data: out, width, height }).blur(0.6 + random() * 0.8));
  return throughJpeg(blurred, 70);
}

function bilinear(frame: Grey, x: number, y: number): number {
  const [left, top] = [Math.floor(x), Math.floor(y)];
  const [fx, fy] = [x - left, y - top];
  const at = top * frame.width + left;
  const upper = (frame.data[at] ?? 0) * (1 - fx) + (frame.data[at + 1] ?? 0) * fx;
  const lower = (frame.data[at + frame.width] ?? 0) * (1 - fx) + (frame.data[at + frame.width + 1] ?? 0) * fx;
  return upper * (1 - fy) + lower * fy;
}

/** The kinds of change, by name. All of them are simulated: no print was made, no telephone was used. */
export const CHANGES = {
  small: async (frame) => ({ ...PLAIN, picture: await small(frame) }),
  tone: async (frame, random) => ({ ...PLAIN, picture: await toned(frame, random) }),
  negative: async (frame) => ({ ...PLAIN, negative: true, picture: await throughJpeg(invert(frame), 80) }),
  turned: async (frame, random) => {
    const turned = ([90, 180, 270] as const)[Math.floor(random() * 3)] ?? 90;
    return { ...PLAIN, turned, picture: await throughJpeg(await grey(open(frame).rotate(turned)), 80) };
  },
  mirrored: async (frame) => ({
    ...PLAIN,
    mirrored: true,
    picture: await throughJpeg(await grey(open(frame).flop()), 80),
  }),
  askew: async (frame, random) => {
    const degrees = (random() < 0.5 ? -1 : 1) * (1 + random() * 2);
    const picture = await grey(open(frame).rotate(degrees, { background: random() < 0.5 ? '#000' : '#fff' }));
    return { ...PLAIN, picture: await throughJpeg(picture, 80) };
  },
  crop75: crop(0.75),
  crop50: crop(0.5),
  crop33: crop(1 / 3),
  crop20: crop(0.2),
  border: async (frame, random) => ({ ...PLAIN, picture: await framed(frame, random) }),
  phone: async (frame, random) => ({ ...PLAIN, picture: await photographed(frame, random) }),
  phoneOfNegative: async (frame, random) => {
    const mirrored = random() < 0.5;
    const turnedOver = mirrored ? await grey(open(frame).flop()) : frame;
    return { ...PLAIN, mirrored, negative: true, picture: await photographed(invert(turnedOver), random) };
  },
  combined: async (frame, random) => {
    const part = await crop(0.6)(frame, random);
    return { ...part, picture: await small(await toned(part.picture, random)) };
  },
} satisfies Record<string, Change>;

export type ChangeName = keyof typeof CHANGES;

/** The names of all kinds of change. */
export const CHANGE_NAMES: readonly ChangeName[] = [
  'small',
  'tone',
  'negative',
  'turned',
  'mirrored',
  'askew',
  'crop75',
  'crop50',
  'crop33',
  'crop20',
  'border',
  'phone',
  'phoneOfNegative',
  'combined',
];

/** The frame changed in one way; `seed` picks how much and where. */
export function changePicture(frame: Grey, name: ChangeName, seed: number): Promise<Changed> {
  return CHANGES[name](frame, seededRandom(seed));
}
