import * as exifr from 'exifr';

// The library's two builds differ: Node loads the one whose functions are all on the default, bundlers and test
// runners the other, whose default lacks this one.
const readPacket = typeof exifr.sidecar === 'function' ? exifr.sidecar : exifr.default.sidecar;

/** The properties of an XMP packet that are read, as text; null where absent. */
export interface XmpFields {
  readonly description: string | null;
  readonly photoshopCreated: string | null;
  readonly exifOriginal: string | null;
  readonly exifDigitized: string | null;
  readonly create: string | null;
  readonly fileSource: number | null;
}

const LARGEST_BYTES = 4 * 1024 * 1024;

/** Reads an XMP packet; null when it is damaged. Values come as text: no dates are made of them. */
export async function readXmp(packet: Buffer): Promise<XmpFields | null> {
  if (packet.length > LARGEST_BYTES) return null;
  let parsed: unknown;
  try {
    parsed = await readPacket(packet, { xmp: true, mergeOutput: false, reviveValues: false }, 'xmp');
  } catch {
    // A packet that is no XML says nothing; the caller remarks on it.
    return null;
  }
  const fileSource = textOf(property(property(parsed, 'exif'), 'FileSource'));
  return {
    description: textOf(property(property(parsed, 'dc'), 'description')),
    photoshopCreated: textOf(property(property(parsed, 'photoshop'), 'DateCreated')),
    exifOriginal: textOf(property(property(parsed, 'exif'), 'DateTimeOriginal')),
    exifDigitized: textOf(property(property(parsed, 'exif'), 'DateTimeDigitized')),
    create: textOf(property(property(parsed, 'xmp'), 'CreateDate')),
    fileSource: fileSource !== null && /^[0-9]$/.test(fileSource) ? Number(fileSource) : null,
  };
}

function property(value: unknown, name: string): unknown {
  return typeof value === 'object' && value !== null
    ? Object.entries(value).find(([key]) => key === name)?.[1]
    : null;
}

/** Text of a plain value, of the first of several languages, or of a list's first item. */
function textOf(value: unknown): string | null {
  if (typeof value === 'string') return value;
  if (typeof value === 'number') return String(value);
  if (Array.isArray(value)) return textOf(value[0]);
  return typeof value === 'object' && value !== null ? textOf(property(value, 'value')) : null;
}
