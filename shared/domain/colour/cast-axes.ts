import { colourDifference } from './colour-difference.ts';
import { labOfGrey } from './grey.ts';
import type { GreyRatio } from './grey.ts';

/**
 * A shift of greys taken apart: along the colours that light itself takes (blue shade to lamp light, + warmer), where
 * a picture may rightly lie anywhere, and across them (+ magenta, − green), where light hardly ever goes.
 */
export type Shift = { readonly across: number; readonly along: number };

/**
 * Slope of ln(B/G) over ln(R/G) in linear sRGB as light goes from shade to lamp: CIE illuminant A (x 0.4476,
 * y 0.4074) has 0.80 and −1.27, slope −1.58; daylight of 4000 K (x 0.3823, y 0.3838) about −1.3; near D65 about −1.1.
 * One middle value serves. Source of the chromaticities: CIE 015:2018, table 3 and the daylight formula of 4.1.2;
 * ratios worked out with the matrix of sRGB.
 */
const LIGHT_SLOPE = -1.4;
const LENGTH = Math.hypot(1, LIGHT_SLOPE);

/** The shift from one grey to another along and across the colours of light. */
export function shiftOf(grey: GreyRatio, from: GreyRatio = { u: 0, v: 0 }): Shift {
  const u = grey.u - from.u;
  const v = grey.v - from.v;
  return { across: (-LIGHT_SLOPE * u + v) / LENGTH, along: (u + LIGHT_SLOPE * v) / LENGTH };
}

/** A grey moved by a shift. */
export function greyShifted(grey: GreyRatio, { across, along }: Shift): GreyRatio {
  return {
    u: grey.u + (-LIGHT_SLOPE * across + along) / LENGTH,
    v: grey.v + (across + LIGHT_SLOPE * along) / LENGTH,
  };
}

/** The colours a shift is named by. */
export type Direction = 'red' | 'yellow' | 'green' | 'cyan' | 'blue' | 'magenta';

/** Each colour as the channels (red, green, blue) that stay while the others are held back. */
const KEPT: readonly (readonly [Direction, readonly [0 | 1, 0 | 1, 0 | 1]])[] = [
  ['red', [1, 0, 0]],
  ['yellow', [1, 1, 0]],
  ['green', [0, 1, 0]],
  ['cyan', [0, 1, 1]],
  ['blue', [0, 0, 1]],
  ['magenta', [1, 0, 1]],
];

/** How far the other channels are held back to find a colour's hue. Our choice; the hues hardly depend on it. */
const HELD_BACK = 0.8;

function hueOf(a: number, b: number): number {
  return Math.atan2(b, a);
}

const HUES: readonly (readonly [Direction, number])[] = KEPT.map(([name, [red, green, blue]]) => {
  const ratio = (one: 0 | 1, other: 0 | 1) => (other - one) * Math.log(HELD_BACK);
  const { a, b } = labOfGrey({ u: ratio(red, green), v: ratio(blue, green) });
  return [name, hueOf(a, b)] as const;
});

/** The colour that a change of a*, b* leans to, by nearest hue among six. */
export function directionOf(deltaA: number, deltaB: number): Direction {
  const hue = hueOf(deltaA, deltaB);
  let best: Direction = 'red';
  let least = Number.POSITIVE_INFINITY;
  for (const [name, other] of HUES) {
    const away = Math.abs(Math.atan2(Math.sin(hue - other), Math.cos(hue - other)));
    if (away < least) {
      least = away;
      best = name;
    }
  }
  return best;
}

/** A change of grey as numbers of L*a*b* and ΔE00 at L* 50. */
export type GreyChange = {
  readonly deltaA: number;
  readonly deltaB: number;
  readonly deltaE00: number;
  readonly direction: Direction;
};

/** What turns one grey into another. */
export function changeOf(grey: GreyRatio, from: GreyRatio): GreyChange {
  const to = labOfGrey(grey);
  const start = labOfGrey(from);
  const deltaA = to.a - start.a;
  const deltaB = to.b - start.b;
  const deltaE00 = colourDifference({ L: 50, ...to }, { L: 50, ...start });
  return { deltaA, deltaB, deltaE00, direction: directionOf(deltaA, deltaB) };
}
