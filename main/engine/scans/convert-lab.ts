import { BRADFORD_D50_TO_D65, linearToSrgb, multiply, XYZ_D65_TO_SRGB } from './srgb.ts';

/** D50 white. Source: ICC.1:2010 clause 7.2.16. */
const D50 = [0.9642, 1, 0.8249] as const;

/**
 * How a and b are kept. Signed: two's complement around 0 (TIFF CIELab). Offset: 0 lies at 128 of 255, at 32768 of
 * 65535 (ICC Lab).
 */
export type LabEncoding = 'signed' | 'offset';

/**
 * Lab pixels of 8 or 16 bits (`pixels` typed so) as sRGB, 8 bits, 3 channels; samples beyond three are dropped. The
 * white is taken as D50, as programs for pictures write it; files do not say.
 * Source: TIFF 6.0 section 23, CIE L*a*b* (8 bits: L 0–255 for 0–100); Adobe TIFF Technical Notes 2002 (16 bits, ICC
 * Lab); CIE 15:2004 8.2.1 for the way back to XYZ.
 */
export function convertLab(
  pixels: Uint8Array | Uint16Array,
  channels: number,
  encoding: LabEncoding,
): Buffer {
  const sixteen = pixels instanceof Uint16Array;
  const steps = sixteen ? 256 : 1;
  const half = 128 * steps;
  const full = 256 * steps;
  // 16-bit ICC Lab of version 2 ends at 0xFF00; TIFF's own 16-bit L ends at 0xFFFF.
  const lightnessScale = 100 / (sixteen && encoding === 'signed' ? 65_535 : 255 * steps);
  const toSrgb = multiply(XYZ_D65_TO_SRGB, BRADFORD_D50_TO_D65);
  const table = makeTable();
  const count = Math.floor(pixels.length / channels);
  const out = Buffer.allocUnsafe(count * 3);
  const chroma = (value: number): number =>
    (encoding === 'offset' ? value - half : value >= half ? value - full : value) / steps;
  for (let pixel = 0; pixel < count; pixel++) {
    const at = pixel * channels;
    const fy = ((pixels[at] ?? 0) * lightnessScale + 16) / 116;
    const x = D50[0] * unfold(fy + chroma(pixels[at + 1] ?? 0) / 500);
    const y = D50[1] * unfold(fy);
    const z = D50[2] * unfold(fy - chroma(pixels[at + 2] ?? 0) / 200);
    for (let channel = 0; channel < 3; channel++) {
      const row = channel * 3;
      const light = (toSrgb[row] ?? 0) * x + (toSrgb[row + 1] ?? 0) * y + (toSrgb[row + 2] ?? 0) * z;
      out[pixel * 3 + channel] = table[Math.round(Math.min(1, Math.max(0, light)) * 4095)] ?? 0;
    }
  }
  return out;
}

function unfold(t: number): number {
  const knee = 6 / 29;
  return t > knee ? t * t * t : 3 * knee * knee * (t - 4 / 29);
}

function makeTable(): Uint8Array {
  return Uint8Array.from({ length: 4096 }, (_, i) => Math.round(linearToSrgb(i / 4095) * 255));
}
