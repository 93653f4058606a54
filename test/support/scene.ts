import sharp from 'sharp';
import { addTexture, type Shot } from './scene-texture.ts';
import { between, seededRandom } from './seeded-random.ts';

/** A grey picture in bytes, rows from the top left. */
export interface Grey {
  readonly data: Uint8Array;
  readonly width: number;
  readonly height: number;
}

/** The first frame of a scene. */
export const FIRST_SHOT: Shot = { shiftX: 0, shiftY: 0, turnDegrees: 0, zoom: 1, moment: 0 };

/** The next frame of a burst: the camera moves by up to 5 %, turns by about a degree, zooms by up to 2 %. */
export function nextShot(random: () => number, moment: number): Shot {
  const either = (most: number) => (random() * 2 - 1) * most;
  return {
    shiftX: either(0.05),
    shiftY: either(0.05),
    turnDegrees: either(1),
    zoom: 1 + either(0.02),
    moment,
  };
}

type Paint = (random: () => number, moment: () => number) => string;

const grey = (value: number) => {
  const byte = Math.round(Math.min(1, Math.max(0, value)) * 255);
  return `rgb(${byte},${byte},${byte})`;
};
const several = (count: number, make: (i: number) => string) =>
  Array.from({ length: count }, (_, i) => make(i)).join('');
const points = (list: readonly (readonly number[])[]) =>
  list.map((pair) => pair.map((v) => v.toFixed(1)).join(',')).join(' ');

/** A ridge or shore: a broken line across, filled to the foot of the scene. */
function ridge(random: () => number, base: number, rough: number, tone: number): string {
  let y = base;
  const line: number[][] = [[-200, 900]];
  for (let x = -200; x <= 1100; x += between(random, 12, 60)) {
    y += between(random, -rough, rough) + (base - y) * 0.15;
    line.push([x, y]);
  }
  return `<polygon points="${points([...line, [1100, 900]])}" fill="${grey(tone)}"/>`;
}

function tree(random: () => number, x: number, y: number, height: number, tone: number): string {
  const trunk = `<path d="M${x} ${y} q${between(random, -9, 9)} ${-height / 2} ${between(random, -14, 14)} ${-height}" stroke="${grey(tone)}" stroke-width="${height / 16}" fill="none"/>`;
  return (
    trunk +
    several(Math.round(between(random, 8, 26)), () => {
      const r = between(random, height * 0.05, height * 0.2);
      const cx = x + between(random, -height * 0.35, height * 0.35);
      const cy = y - between(random, height * 0.45, height * 1.15);
      return `<ellipse cx="${cx}" cy="${cy}" rx="${r}" ry="${r * between(random, 0.5, 1.1)}" fill="${grey(tone + between(random, -0.12, 0.22))}"/>`;
    })
  );
}

function person(random: () => number, x: number, y: number, height: number): string {
  const tone = random();
  const head = height * 0.09;
  const lean = between(random, -0.1, 0.1) * height;
  return (
    `<path d="M${x - height * 0.14} ${y} L${x + lean - height * 0.13} ${y - height * 0.75} Q${x + lean} ${y - height * 0.9} ${x + lean + height * 0.13} ${y - height * 0.75} L${x + height * between(random, 0.05, 0.2)} ${y} Z" fill="${grey(tone)}"/>` +
    `<path d="M${x + lean} ${y - height * 0.7} l${between(random, -0.3, 0.3) * height} ${between(random, 0.05, 0.35) * height}" stroke="${grey(tone * 0.7 + 0.1)}" stroke-width="${height * 0.06}"/>` +
    `<circle cx="${x + lean}" cy="${y - height * 0.92}" r="${head}" fill="${grey(between(random, 0.4, 0.9))}"/>` +
    `<circle cx="${x + lean}" cy="${y - height * 0.96}" r="${head * 0.9}" fill="${grey(random() * 0.5)}"/>`
  );
}

const landscape: Paint = (random, moment) => {
  const sky = between(random, 0.55, 0.95);
  const horizon = between(random, 200, 420);
  const clouds = several(Math.round(between(random, 2, 12)), () => {
    const x = between(random, -100, 1000) + moment() * 25;
    return `<ellipse cx="${x}" cy="${between(random, 0, horizon)}" rx="${between(random, 20, 150)}" ry="${between(random, 5, 40)}" fill="${grey(sky + between(random, -0.15, 0.25))}" opacity="0.7"/>`;
  });
  const hills = several(Math.round(between(random, 2, 5)), (i) =>
    ridge(
      random,
      horizon + i * between(random, 25, 80),
      between(random, 6, 34),
      sky - 0.15 - i * 0.12 - random() * 0.1,
    ),
  );
  const trees = several(Math.round(between(random, 2, 22)), () =>
    tree(
      random,
      between(random, -60, 960),
      between(random, horizon + 30, 620),
      between(random, 30, 260),
      between(random, 0.05, 0.4),
    ),
  );
  const birds = several(
    5,
    () =>
      `<path d="M${between(random, 0, 900) + moment() * 140} ${between(random, 10, 300) + moment() * 50} q8 -9 14 0 q7 -9 14 0" stroke="${grey(0.1)}" stroke-width="3" fill="none"/>`,
  );
  const walker = person(
    random,
    between(random, 100, 800) + moment() * 120,
    between(random, 480, 590),
    between(random, 60, 150),
  );
  return `<rect x="-300" y="-300" width="1600" height="1300" fill="${grey(sky)}"/>${clouds}${hills}${trees}${birds}${walker}`;
};

const street: Paint = (random, moment) => {
  const sky = between(random, 0.5, 0.95);
  let x = -150;
  let houses = '';
  while (x < 1050) {
    const width = between(random, 70, 260);
    const top = between(random, 20, 330);
    const tone = between(random, 0.15, 0.8);
    houses += `<rect x="${x}" y="${top}" width="${width}" height="700" fill="${grey(tone)}"/>`;
    houses += `<polygon points="${points([
      [x - 6, top],
      [x + width * random(), top - between(random, 0, 70)],
      [x + width + 6, top],
    ])}" fill="${grey(tone * between(random, 0.4, 0.8))}"/>`;
    const columns = Math.round(between(random, 1, 6));
    const rows = Math.round(between(random, 2, 8));
    const [cell, story] = [width / columns, between(random, 36, 90)];
    const [wide, high] = [cell * between(random, 0.3, 0.7), story * between(random, 0.4, 0.75)];
    for (let row = 0; row < rows; row++) {
      for (let column = 0; column < columns; column++) {
        if (random() < 0.12) continue;
        const [wx, wy] = [
          x + column * cell + (cell - wide) / 2 + between(random, -3, 3),
          top + 14 + row * story,
        ];
        houses += `<rect x="${wx}" y="${wy}" width="${wide}" height="${high}" fill="${grey(tone + between(random, -0.5, 0.35))}" stroke="${grey(tone + 0.2)}" stroke-width="2"/>`;
        if (random() < 0.5)
          houses += `<path d="M${wx + wide * random()} ${wy} v${high} M${wx} ${wy + high * random()} h${wide}" stroke="${grey(tone + between(random, -0.3, 0.3))}" stroke-width="2"/>`;
      }
    }
    if (random() < 0.5) {
      const letters = several(6, () => String.fromCharCode(65 + Math.floor(random() * 26)));
      houses += `<text x="${x + 8}" y="${between(random, 380, 480)}" font-family="sans-serif" font-size="${between(random, 16, 42)}" fill="${grey(random())}">${letters}</text>`;
    }
    x += width + (random() < 0.2 ? between(random, 10, 60) : 0);
  }
  const ground = `<rect x="-300" y="${between(random, 500, 540)}" width="1600" height="500" fill="${grey(between(random, 0.2, 0.6))}"/>`;
  const cars = several(Math.round(between(random, 0, 4)), () => {
    const [cx, cy, s] = [
      between(random, 0, 850) + moment() * 260,
      between(random, 530, 570),
      between(random, 0.7, 1.5),
    ];
    return `<path d="M${cx} ${cy} l${10 * s} ${-22 * s} h${25 * s} l${14 * s} ${-20 * s} h${45 * s} l${16 * s} ${20 * s} h${22 * s} v${22 * s} Z" fill="${grey(random())}"/><circle cx="${cx + 30 * s}" cy="${cy}" r="${12 * s}" fill="${grey(0.08)}"/><circle cx="${cx + 104 * s}" cy="${cy}" r="${12 * s}" fill="${grey(0.08)}"/>`;
  });
  const people = several(Math.round(between(random, 1, 8)), () =>
    person(
      random,
      between(random, 0, 900) + moment() * 90,
      between(random, 510, 600),
      between(random, 60, 220),
    ),
  );
  return `<rect x="-300" y="-300" width="1600" height="1300" fill="${grey(sky)}"/>${houses}${ground}${cars}${people}`;
};

const portrait: Paint = (random, moment) => {
  const back = between(random, 0.1, 0.85);
  const things = several(Math.round(between(random, 6, 40)), () => {
    const [x, y] = [between(random, -100, 1000), between(random, -100, 700)];
    const tone = grey(back + between(random, -0.35, 0.35));
    return random() < 0.5
      ? `<rect x="${x}" y="${y}" width="${between(random, 10, 200)}" height="${between(random, 10, 200)}" transform="rotate(${between(random, -30, 30)} ${x} ${y})" fill="${tone}"/>`
      : `<ellipse cx="${x}" cy="${y}" rx="${between(random, 8, 90)}" ry="${between(random, 8, 90)}" fill="${tone}"/>`;
  });
  const [cx, cy, r] = [
    between(random, 250, 650) + moment() * 35,
    between(random, 180, 300) + moment() * 12,
    between(random, 70, 150),
  ];
  const skin = between(random, 0.35, 0.85);
  const turn = between(random, -0.25, 0.25) + moment() * 0.1;
  const [aspect, shoulder, smile] = [
    between(random, 1.15, 1.45),
    between(random, 1.5, 2.4),
    between(random, -0.05, 0.25),
  ];
  const hair = several(Math.round(between(random, 20, 60)), () => {
    const a = between(random, Math.PI, 2 * Math.PI);
    const [hx, hy] = [cx + Math.cos(a) * r * 0.9, cy + Math.sin(a) * r * aspect * 0.85];
    return `<path d="M${cx} ${cy - r * 0.9} Q${hx} ${hy - r * 0.4} ${hx + between(random, -0.4, 0.4) * r} ${hy + between(random, -0.1, 0.9) * r}" stroke="${grey(between(random, 0, 0.45))}" stroke-width="${r * 0.07}" fill="none"/>`;
  });
  const eye = (side: number) =>
    `<ellipse cx="${cx + (side * 0.38 + turn) * r}" cy="${cy - r * 0.12}" rx="${r * 0.16}" ry="${r * 0.09}" fill="${grey(0.95)}"/><circle cx="${cx + (side * 0.38 + turn) * r + moment() * 4}" cy="${cy - r * 0.12}" r="${r * 0.08}" fill="${grey(0.08)}"/><path d="M${cx + (side * 0.58 + turn) * r} ${cy - r * 0.33} h${-side * r * 0.42}" stroke="${grey(0.15)}" stroke-width="${r * 0.06}"/>`;
  const stripes = several(
    Math.round(between(random, 0, 16)),
    () =>
      `<path d="M${cx - r * shoulder} ${cy + r * between(random, 1.8, 4)} q${r * shoulder} ${between(random, -60, 60)} ${2 * r * shoulder} ${between(random, -40, 40)}" stroke="${grey(random())}" stroke-width="${between(random, 2, 14)}" fill="none"/>`,
  );
  return (
    `<rect x="-300" y="-300" width="1600" height="1300" fill="${grey(back)}"/>${things}` +
    `<path d="M${cx - r * shoulder} 900 Q${cx - r * shoulder} ${cy + r * 1.6} ${cx} ${cy + r * 1.3} Q${cx + r * shoulder} ${cy + r * 1.6} ${cx + r * shoulder} 900 Z" fill="${grey(between(random, 0.05, 0.9))}"/>${stripes}` +
    `<ellipse cx="${cx}" cy="${cy}" rx="${r}" ry="${r * aspect}" fill="${grey(skin)}"/>${hair}${eye(-1)}${eye(1)}` +
    `<path d="M${cx + turn * r} ${cy - r * 0.05} l${(turn + 0.1) * r} ${r * 0.4} h${-r * 0.2}" stroke="${grey(skin * 0.6)}" stroke-width="4" fill="none"/>` +
    `<path d="M${cx + (turn - 0.3) * r} ${cy + r * 0.62} q${r * 0.3} ${smile * r} ${r * 0.6} 0" stroke="${grey(skin * 0.35)}" stroke-width="7" fill="none"/>`
  );
};

const tangle: Paint = (random, moment) => {
  const back = between(random, 0.1, 0.7);
  const strokes = several(Math.round(between(random, 60, 220)), () => {
    const [x, y] = [between(random, -100, 1000), between(random, -100, 700)];
    const sway = moment() * between(random, 0, 26);
    return `<path d="M${x} ${y} q${between(random, -60, 60)} ${between(random, -90, 90)} ${between(random, -120, 120) + sway} ${between(random, -150, 150)}" stroke="${grey(random())}" stroke-width="${between(random, 1, 12)}" fill="none"/>`;
  });
  const leaves = several(Math.round(between(random, 20, 160)), () => {
    const [x, y] = [
      between(random, -100, 1000) + moment() * between(random, 0, 22),
      between(random, -100, 700),
    ];
    return `<ellipse cx="${x}" cy="${y}" rx="${between(random, 4, 60)}" ry="${between(random, 3, 24)}" transform="rotate(${between(random, 0, 180)} ${x} ${y})" fill="${grey(random())}"/>`;
  });
  return `<rect x="-300" y="-300" width="1600" height="1300" fill="${grey(back)}"/>${strokes}${leaves}`;
};

const crowd: Paint = (random, moment) => {
  const wall = between(random, 0.3, 0.9);
  const panels = several(
    Math.round(between(random, 4, 20)),
    () =>
      `<rect x="${between(random, -150, 1000)}" y="${between(random, -100, 300)}" width="${between(random, 20, 240)}" height="${between(random, 30, 320)}" fill="${grey(wall + between(random, -0.3, 0.2))}"/>`,
  );
  const rows = several(Math.round(between(random, 2, 5)), (row) =>
    several(Math.round(between(random, 3, 14)), () =>
      person(
        random,
        between(random, -60, 960) + moment() * between(random, 0, 40),
        430 + row * 55,
        between(random, 160, 330),
      ),
    ),
  );
  return `<rect x="-300" y="-300" width="1600" height="1300" fill="${grey(wall)}"/>${panels}${rows}`;
};

const PAINTS: readonly Paint[] = [landscape, street, portrait, tangle, crowd];

/** How many kinds of scene there are: `kind` of `drawScene` counts from 0. */
export const SCENE_KINDS = PAINTS.length;

/** Draws a scene as film might show it: shapes, their texture, grain. Frames are 768 × 512. */
export async function drawScene(seed: number, kind: number, shot: Shot = FIRST_SHOT): Promise<Grey> {
  const [width, height] = [768, 512];
  const random = seededRandom(seed * 7919 + 13);
  const paint = PAINTS[kind % PAINTS.length] ?? landscape;
  const movers = seededRandom(seed * 31 + shot.moment * 104_729 + 7);
  const moment = () => (shot.moment === 0 ? 0 : movers() * 1.4 - 0.7);
  const [dx, dy] = [shot.shiftX * width, shot.shiftY * height];
  const place = `translate(${width / 2 + dx} ${height / 2 + dy}) rotate(${shot.turnDegrees}) scale(${0.9 * shot.zoom}) translate(-450 -300)`;
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}"><g transform="${place}">${paint(random, moment)}</g></svg>`;
  const { data } = await sharp(Buffer.from(svg)).greyscale().raw().toBuffer({ resolveWithObject: true });
  return { data: addTexture(data, width, height, seed, shot), width, height };
}
