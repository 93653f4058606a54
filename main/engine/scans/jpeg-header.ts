import type { ByteSource } from './byte-source.ts';

/** What the segments before a JPEG's first scan say. */
export interface JpegHeader {
  /** As stored, before orientation; null when there is no frame header. */
  readonly width: number | null;
  readonly height: number | null;
  readonly components: number;
  readonly bits: number;
  /** Resolution from the JFIF segment: unit 1 inch, 2 centimetre, 0 none (an aspect ratio). */
  readonly density: { readonly unit: number; readonly x: number; readonly y: number } | null;
  readonly exif: Buffer | null;
  readonly xmp: Buffer | null;
  readonly iptc: Buffer | null;
  readonly icc: Buffer | null;
}

const EXIF_START = Buffer.from('Exif\0\0', 'latin1');
const XMP_START = Buffer.from('http://ns.adobe.com/xap/1.0/\0', 'latin1');
const ICC_START = Buffer.from('ICC_PROFILE\0', 'latin1');
const PHOTOSHOP_START = Buffer.from('Photoshop 3.0\0', 'latin1');
const JFIF_START = Buffer.from('JFIF\0', 'latin1');

/** A file with more segments than this before its picture is not read further. Our choice. */
const MOST_SEGMENTS = 2000;

/**
 * Reads the segments before the picture, and nothing else.
 * Source: ISO/IEC 10918-1 annex B; Exif 2.32 4.7.2; ICC.1:2010 B.4; JFIF 1.02.
 */
export async function readJpegHeader(source: ByteSource): Promise<JpegHeader> {
  let frame: { width: number; height: number; components: number; bits: number } | null = null;
  let density: JpegHeader['density'] = null;
  let exif: Buffer | null = null;
  let xmp: Buffer | null = null;
  const photoshop: Buffer[] = [];
  const profileParts: Buffer[] = [];
  let at = 2;
  for (let segments = 0; segments < MOST_SEGMENTS; segments++) {
    const head = await source.read(at, 4);
    const marker = head[1] ?? 0;
    if (head.length < 4 || head[0] !== 0xff || marker === 0xda || marker === 0xd9) break;
    if (marker === 0xff) {
      at += 1;
      continue;
    }
    const length = head.readUInt16BE(2);
    if (length < 2) break;
    if (isFrameHeader(marker) || (marker >= 0xe0 && marker <= 0xed)) {
      const body = await source.read(at + 4, length - 2);
      if (body.length < length - 2) break;
      if (isFrameHeader(marker)) frame ??= readFrame(body);
      else if (marker === 0xe0 && startsWith(body, JFIF_START)) density ??= readDensity(body);
      else if (marker === 0xe1 && startsWith(body, EXIF_START)) exif ??= body.subarray(EXIF_START.length);
      else if (marker === 0xe1 && startsWith(body, XMP_START)) xmp ??= body.subarray(XMP_START.length);
      else if (marker === 0xe2 && startsWith(body, ICC_START))
        profileParts.push(body.subarray(ICC_START.length));
      else if (marker === 0xed && startsWith(body, PHOTOSHOP_START)) {
        photoshop.push(body.subarray(PHOTOSHOP_START.length));
      }
    }
    at += 2 + length;
  }
  return {
    width: frame?.width ?? null,
    height: frame?.height ?? null,
    components: frame?.components ?? 0,
    bits: frame?.bits ?? 8,
    density,
    exif,
    xmp,
    iptc: photoshop.length > 0 ? findIptc(Buffer.concat(photoshop)) : null,
    icc: profileParts.length > 0 ? joinProfile(profileParts) : null,
  };
}

function startsWith(body: Buffer, start: Buffer): boolean {
  return body.subarray(0, start.length).equals(start);
}

/** SOF0 to SOF15 without the three markers in that range that are something else (DHT, JPG, DAC). */
function isFrameHeader(marker: number): boolean {
  return marker >= 0xc0 && marker <= 0xcf && marker !== 0xc4 && marker !== 0xc8 && marker !== 0xcc;
}

function readFrame(body: Buffer) {
  if (body.length < 6) return null;
  return {
    bits: body.readUInt8(0),
    height: body.readUInt16BE(1),
    width: body.readUInt16BE(3),
    components: body.readUInt8(5),
  };
}

function readDensity(body: Buffer): JpegHeader['density'] {
  if (body.length < 12) return null;
  return { unit: body.readUInt8(7), x: body.readUInt16BE(8), y: body.readUInt16BE(10) };
}

/** Parts of a profile carry their number, from 1, and how many there are. */
function joinProfile(parts: readonly Buffer[]): Buffer {
  const ordered = [...parts].sort((a, b) => (a[0] ?? 0) - (b[0] ?? 0));
  return Buffer.concat(ordered.map((part) => part.subarray(2)));
}

/**
 * The IPTC block among image resources (number 0x0404), or null.
 * Source: Adobe Photoshop File Formats Specification, "Image Resource Blocks".
 */
function findIptc(resources: Buffer): Buffer | null {
  for (let at = 0; at + 12 <= resources.length;) {
    if (resources.toString('latin1', at, at + 4) !== '8BIM') return null;
    const id = resources.readUInt16BE(at + 4);
    const nameLength = (resources[at + 6] ?? 0) + 1;
    const sizeAt = at + 6 + nameLength + (nameLength % 2);
    if (sizeAt + 4 > resources.length) return null;
    const size = resources.readUInt32BE(sizeAt);
    if (id === 0x0404) return resources.subarray(sizeAt + 4, sizeAt + 4 + size);
    at = sizeAt + 4 + size + (size % 2);
  }
  return null;
}
