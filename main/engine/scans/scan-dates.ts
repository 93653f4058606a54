import { formatFileDate, readFileDate, readIptcDate, readOffset, type FileDate } from './exif-date.ts';
import type { ScanRemark } from './scan-reason.ts';

/** The date fields of a file as they stand in it; null where there is none. */
export interface DateFields {
  readonly exifOriginal: string | null;
  readonly exifDigitized: string | null;
  readonly digitizedFraction: string | null;
  readonly digitizedOffset: string | null;
  readonly iptcCreated: string | null;
  readonly xmpPhotoshopCreated: string | null;
  readonly xmpOriginal: string | null;
  readonly xmpDigitized: string | null;
  readonly xmpCreate: string | null;
  /** Exif FileSource: 1 film scanner, 2 scanner of prints, 3 digital camera; null when not said. */
  readonly fileSource: number | null;
}

/** When the picture was taken and when it was scanned: two facts, neither ever filled from the other. */
export interface ScanDates {
  /** EDTF date, no finer than a day; null when the file does not say. */
  readonly captured: string | null;
  /** What stands in the file where the capture date would be. */
  readonly capturedRaw: string | null;
  /** ISO 8601 wall time with the offset where the file gives one, as precise as the file; null when not said. */
  readonly scanned: string | null;
  readonly scannedRaw: string | null;
  readonly remarks: readonly ScanRemark[];
}

/** Before this no film was scanned into a file with such a date. Our choice: such clocks have been reset. */
const FIRST_SCANS_YEAR = 1985;
const FIRST_PHOTOGRAPHS_YEAR = 1826;
const SAME_SESSION_DAYS = 1;

/**
 * Sorts the dates of a file into capture and scan. `today` (YYYY-MM-DD) is only compared with.
 * Source: Adobe XMP EXIF and basic namespaces (Original: exposure, Digitized and xmp:CreateDate: scan); IPTC Photo
 * Metadata Standard ("Date Created" is the content's date). A scanner or copy camera that names itself as the source
 * of the file and gives one and the same time twice has only told when it scanned.
 */
export function sortScanDates(fields: DateFields, today: string): ScanDates {
  const original = firstDate([fields.exifOriginal, fields.xmpOriginal]);
  const digitized = withFinerParts(
    firstDate([fields.exifDigitized, fields.xmpDigitized, fields.xmpCreate]),
    fields,
  );
  const byDevice = fields.fileSource !== null && fields.fileSource >= 1 && fields.fileSource <= 3;
  const originalIsScan =
    byDevice && original.value !== null && isSameSession(original.value, digitized.value);

  const iptc = fields.iptcCreated === null ? null : readIptcDate(fields.iptcCreated);
  const content = firstDate([fields.xmpPhotoshopCreated]);
  const captured = content.value ?? iptc ?? (originalIsScan ? null : original.value);
  const capturedRaw = content.raw ?? fields.iptcCreated ?? original.raw;
  const scanned = digitized.value ?? (originalIsScan ? original.value : null);
  const scannedRaw = digitized.raw ?? (originalIsScan ? original.raw : null);

  const remarks: ScanRemark[] = [];
  if (scanned !== null && !isPlausible(scanned.date, FIRST_SCANS_YEAR, today))
    remarks.push('scan_date_implausible');
  if (captured !== null && !isPlausible(captured.date, FIRST_PHOTOGRAPHS_YEAR, today)) {
    remarks.push('capture_date_implausible');
  }
  const onlyExif = content.value === null && iptc === null;
  if (onlyExif && captured !== null && original.raw === fields.exifDigitized)
    remarks.push('capture_may_be_scan_date');
  return {
    captured: captured?.date ?? null,
    capturedRaw,
    scanned: scanned === null ? null : formatFileDate(scanned),
    scannedRaw,
    remarks,
  };
}

/** The first field that holds a date; where none does, the first text, for showing what stands there. */
function firstDate(texts: readonly (string | null)[]): { value: FileDate | null; raw: string | null } {
  const given = texts.filter((text) => text !== null);
  for (const raw of given) {
    const value = readFileDate(raw);
    if (value !== null) return { value, raw };
  }
  return { value: null, raw: given[0] ?? null };
}

function withFinerParts(
  found: { value: FileDate | null; raw: string | null },
  fields: DateFields,
): { value: FileDate | null; raw: string | null } {
  const { value, raw } = found;
  if (value === null || value.time === null || raw !== fields.exifDigitized) return found;
  const fraction = /^\d{1,9}$/.exec(fields.digitizedFraction?.trim() ?? '')?.[0];
  return {
    raw,
    value: {
      date: value.date,
      time: fraction !== undefined && value.time.length === 8 ? `${value.time}.${fraction}` : value.time,
      offset: value.offset ?? readOffset(fields.digitizedOffset ?? undefined),
    },
  };
}

function isSameSession(original: FileDate, digitized: FileDate | null): boolean {
  if (digitized === null) return true;
  if (original.date.length !== 10 || digitized.date.length !== 10) return original.date === digitized.date;
  const days = Math.abs(Date.parse(original.date) - Date.parse(digitized.date)) / 86_400_000;
  return days <= SAME_SESSION_DAYS;
}

function isPlausible(date: string, firstYear: number, today: string): boolean {
  // One day of grace: the zone of the scanner may be ahead of ours.
  const tomorrow = new Date(Date.parse(today) + 86_400_000).toISOString().slice(0, 10);
  return Number(date.slice(0, 4)) >= firstYear && date <= tomorrow.slice(0, date.length);
}
