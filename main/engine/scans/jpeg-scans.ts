/** How far the picture part of a JPEG goes. */
export interface JpegScans {
  /** Whether an end mark follows the picture. */
  readonly ended: boolean;
  /** Whether the scans begun bring every component to full accuracy (one scan each, unless progressive). */
  readonly coverAll: boolean;
}

/**
 * Walks the scans of a JPEG in memory. Used only on a file that a strict read refused: it tells a picture whose
 * end mark is damaged from one that is cut off between two refinements.
 * Source: ISO/IEC 10918-1 B.2.3 (scan header), G.1.1.1 (spectral selection, successive approximation).
 */
export function walkJpegScans(bytes: Buffer): JpegScans {
  const accuracy = new Map<number, Int8Array>();
  let at = 2;
  while (at + 4 <= bytes.length) {
    if (bytes[at] !== 0xff) {
      at++;
      continue;
    }
    const marker = bytes[at + 1] ?? 0;
    if (marker === 0xd9) return { ended: true, coverAll: isCovered(accuracy) };
    if (marker === 0xff || marker === 0x00 || (marker >= 0xd0 && marker <= 0xd8)) {
      at += marker === 0xff ? 1 : 2;
      continue;
    }
    const length = bytes.readUInt16BE(at + 2);
    const body = bytes.subarray(at + 4, at + 2 + length);
    if (marker >= 0xc0 && marker <= 0xc2) declareComponents(body, accuracy);
    if (marker === 0xda) refine(body, accuracy);
    at += 2 + length;
    if (marker === 0xda) at = endOfScan(bytes, at);
  }
  return { ended: bytes.subarray(-2).equals(Buffer.from([0xff, 0xd9])), coverAll: isCovered(accuracy) };
}

function declareComponents(body: Buffer, accuracy: Map<number, Int8Array>): void {
  const count = body[5] ?? 0;
  for (let i = 0; i < count; i++) accuracy.set(body[6 + i * 3] ?? 0, new Int8Array(64).fill(-1));
}

function refine(body: Buffer, accuracy: Map<number, Int8Array>): void {
  const count = body[0] ?? 0;
  const from = body[1 + count * 2] ?? 0;
  const to = Math.min(63, body[2 + count * 2] ?? 63);
  const missingBits = (body[3 + count * 2] ?? 0) & 0x0f;
  for (let i = 0; i < count; i++) accuracy.get(body[1 + i * 2] ?? 0)?.fill(missingBits, from, to + 1);
}

function isCovered(accuracy: ReadonlyMap<number, Int8Array>): boolean {
  return (
    accuracy.size > 0 && [...accuracy.values()].every((waves) => waves.every((missing) => missing === 0))
  );
}

/** Where the next marker stands that does not belong to the coded data. */
function endOfScan(bytes: Buffer, from: number): number {
  for (
    let at = bytes.indexOf(0xff, from);
    at !== -1 && at + 1 < bytes.length;
    at = bytes.indexOf(0xff, at + 1)
  ) {
    const marker = bytes[at + 1] ?? 0;
    if (marker !== 0x00 && marker !== 0xff && !(marker >= 0xd0 && marker <= 0xd7)) return at;
  }
  return bytes.length;
}
