/** What is needed to know of an embedded colour profile. */
export interface IccProfile {
  /** Its own description, or null. */
  readonly name: string | null;
  /** Kind of pixels it is for, as it stands: `RGB `, `GRAY`, `CMYK`, `Lab `. */
  readonly space: string;
  /** Whether it is sRGB by its primaries and tone curve, whatever its name: no conversion needed. */
  readonly isSrgb: boolean;
}

/** Largest tag table looked at. Our choice. */
const MOST_TAGS = 200;

/**
 * sRGB primaries adapted to D50, X Y Z, as in every sRGB profile.
 * Source: IEC 61966-2-1:1999 primaries through the Bradford transform of ICC.1:2010 annex E.
 */
const SRGB_COLORANTS: Readonly<Record<string, readonly [number, number, number]>> = {
  rXYZ: [0.4361, 0.2225, 0.0139],
  gXYZ: [0.3851, 0.7169, 0.0971],
  bXYZ: [0.1431, 0.0606, 0.7139],
};
const COLORANT_TOLERANCE = 0.003;
const CURVE_TOLERANCE = 0.004;

/**
 * Reads the header and the few tags that matter; null when the profile is damaged (cut off, or no profile at all).
 * Source: ICC.1:2010 (profile version 4.3) clauses 7.2, 7.3, 10.5, 10.13, 10.15, 10.22, 10.31; ICC.1:2001-04 6.5.17.
 */
export function readIccProfile(bytes: Buffer): IccProfile | null {
  if (bytes.length < 132 || bytes.toString('latin1', 36, 40) !== 'acsp') return null;
  if (bytes.readUInt32BE(0) > bytes.length) return null;
  const tags = readTags(bytes);
  if (tags === null) return null;
  return {
    name: readDescription(tags.get('desc')),
    space: bytes.toString('latin1', 16, 20),
    isSrgb: isSrgb(tags),
  };
}

function readTags(bytes: Buffer): Map<string, Buffer> | null {
  const count = bytes.readUInt32BE(128);
  if (count > MOST_TAGS || bytes.length < 132 + count * 12) return null;
  const tags = new Map<string, Buffer>();
  for (let i = 0; i < count; i++) {
    const at = 132 + i * 12;
    const offset = bytes.readUInt32BE(at + 4);
    const size = bytes.readUInt32BE(at + 8);
    if (offset + size > bytes.length) return null;
    tags.set(bytes.toString('latin1', at, at + 4), bytes.subarray(offset, offset + size));
  }
  return tags;
}

function readDescription(tag: Buffer | undefined): string | null {
  if (tag === undefined || tag.length < 16) return null;
  const type = tag.toString('latin1', 0, 4);
  if (type === 'desc') return tidy(tag.toString('latin1', 12, 12 + tag.readUInt32BE(8)));
  if (type !== 'mluc' || tag.readUInt32BE(8) === 0 || tag.length < 28) return null;
  const length = tag.readUInt32BE(20);
  const offset = tag.readUInt32BE(24);
  // UTF-16BE; the copy is swapped, the file's bytes are not touched.
  const text = Buffer.from(tag.subarray(offset, offset + length - (length % 2)));
  return text.length % 2 === 0 ? tidy(text.swap16().toString('utf16le')) : null;
}

function tidy(text: string): string | null {
  const end = text.indexOf('\0');
  const clean = (end === -1 ? text : text.slice(0, end)).trim().slice(0, 200);
  return clean === '' ? null : clean;
}

function isSrgb(tags: ReadonlyMap<string, Buffer>): boolean {
  for (const [name, expected] of Object.entries(SRGB_COLORANTS)) {
    const tag = tags.get(name);
    if (tag === undefined || tag.length < 20 || tag.toString('latin1', 0, 4) !== 'XYZ ') return false;
    const off = expected.some(
      (value, i) => Math.abs(tag.readInt32BE(8 + i * 4) / 65_536 - value) > COLORANT_TOLERANCE,
    );
    if (off) return false;
  }
  return ['rTRC', 'gTRC', 'bTRC'].every((name) => isSrgbCurve(tags.get(name)));
}

/** Compares a tone curve with sRGB's at four places. */
function isSrgbCurve(tag: Buffer | undefined): boolean {
  if (tag === undefined || tag.length < 12) return false;
  return [0.1, 0.25, 0.5, 0.8].every((x) => {
    const y = evaluateCurve(tag, x);
    return y !== null && Math.abs(y - srgbToLinear(x)) < CURVE_TOLERANCE;
  });
}

function srgbToLinear(value: number): number {
  return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
}

function evaluateCurve(tag: Buffer, x: number): number | null {
  const type = tag.toString('latin1', 0, 4);
  if (type === 'curv') {
    const count = tag.readUInt32BE(8);
    if (count < 2 || tag.length < 12 + count * 2) return null;
    const place = x * (count - 1);
    const below = Math.floor(place);
    const low = tag.readUInt16BE(12 + below * 2);
    const high = tag.readUInt16BE(12 + Math.min(count - 1, below + 1) * 2);
    return (low + (high - low) * (place - below)) / 65_535;
  }
  // Parametric curve 3: (a x + b)^g from d, c x below.
  if (type !== 'para' || tag.length < 32 || tag.readUInt16BE(8) !== 3) return null;
  const [g, a, b, c, d] = [0, 1, 2, 3, 4].map((i) => tag.readInt32BE(12 + i * 4) / 65_536);
  if (g === undefined || a === undefined || b === undefined || c === undefined || d === undefined)
    return null;
  return x >= d ? (a * x + b) ** g : c * x;
}
