import type { Lab } from './cie-lab.ts';

const FULL_TURN = 360;

function toRadians(degrees: number): number {
  return (degrees * Math.PI) / 180;
}

function hueDegrees(a: number, b: number): number {
  if (a === 0 && b === 0) return 0;
  const degrees = (Math.atan2(b, a) * 180) / Math.PI;
  return degrees < 0 ? degrees + FULL_TURN : degrees;
}

/**
 * The colour difference ΔE00 of two colours, kL = kC = kH = 1; 0 for equal colours, about 1 just visible side by
 * side. Symbols as in the paper.
 * Source: Sharma, Wu, Dalal, "The CIEDE2000 color-difference formula: implementation notes…", Color Res. Appl. 30
 * (2005) 21–30, equations 2–22, doi 10.1002/col.20070; the formula itself: ISO/CIE 11664-6.
 */
export function colourDifference(one: Lab, other: Lab): number {
  const meanC = (Math.hypot(one.a, one.b) + Math.hypot(other.a, other.b)) / 2;
  const G = 0.5 * (1 - Math.sqrt(meanC ** 7 / (meanC ** 7 + 25 ** 7)));
  const a1 = (1 + G) * one.a;
  const a2 = (1 + G) * other.a;
  const C1 = Math.hypot(a1, one.b);
  const C2 = Math.hypot(a2, other.b);
  const h1 = hueDegrees(a1, one.b);
  const h2 = hueDegrees(a2, other.b);
  const grey = C1 * C2 === 0;

  let dh = grey ? 0 : h2 - h1;
  if (dh > FULL_TURN / 2) dh -= FULL_TURN;
  else if (dh < -FULL_TURN / 2) dh += FULL_TURN;
  const dL = other.L - one.L;
  const dC = C2 - C1;
  const dH = 2 * Math.sqrt(C1 * C2) * Math.sin(toRadians(dh / 2));

  const L = (one.L + other.L) / 2;
  const C = (C1 + C2) / 2;
  let h = h1 + h2;
  if (!grey) {
    if (Math.abs(h1 - h2) <= FULL_TURN / 2) h /= 2;
    else h = (h < FULL_TURN ? h + FULL_TURN : h - FULL_TURN) / 2;
  }
  const T =
    1 -
    0.17 * Math.cos(toRadians(h - 30)) +
    0.24 * Math.cos(toRadians(2 * h)) +
    0.32 * Math.cos(toRadians(3 * h + 6)) -
    0.2 * Math.cos(toRadians(4 * h - 63));
  const turn = 30 * Math.exp(-(((h - 275) / 25) ** 2));
  const RC = 2 * Math.sqrt(C ** 7 / (C ** 7 + 25 ** 7));
  const SL = 1 + (0.015 * (L - 50) ** 2) / Math.sqrt(20 + (L - 50) ** 2);
  const SC = 1 + 0.045 * C;
  const SH = 1 + 0.015 * C * T;
  const RT = -Math.sin(toRadians(2 * turn)) * RC;
  return Math.sqrt((dL / SL) ** 2 + (dC / SC) ** 2 + (dH / SH) ** 2 + RT * (dC / SC) * (dH / SH));
}
