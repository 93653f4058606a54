/** A date as a file gives it: EDTF (ISO 8601-2 level 0) text of just the precision given, with its time apart. */
export interface FileDate {
  /** `1998`, `1998-07` or `1998-07-12`. */
  readonly date: string;
  /** Wall time `21:04:05` with any fraction, or null; only ever beside a full date. */
  readonly time: string | null;
  /** Offset from UTC, `+09:00` or `Z`, or null where the file gives none. */
  readonly offset: string | null;
}

const FULL =
  /^\s*(\d{4})[:/.-](\d{2})[:/.-](\d{2})(?:[T ]+(\d{2}):(\d{2})(?::(\d{2})(\.\d{1,9})?)?)?\s*(Z|[+-]\d{2}:\d{2})?\s*$/;
const TRUNCATED = /^\s*(\d{4})(?:[:/-](\d{2}))?\s*$/;

/**
 * Reads a date of Exif (`1998:07:12 14:00:00`), of XMP (`1998-07`, `1998-07-12T14:00+02:00`), or with other
 * separators. Day 00 leaves the month, month 00 the year; blanks, zeros, and months or days that do not exist are
 * no date at all. Nothing is moved between time zones.
 */
export function readFileDate(text: string): FileDate | null {
  const full = FULL.exec(text);
  if (full) {
    const date = composeDate(full[1], full[2], full[3]);
    if (date === null) return null;
    const time = date.length === 10 ? composeTime(full[4], full[5], full[6], full[7]) : null;
    return { date, time, offset: time === null ? null : readOffset(full[8]) };
  }
  const truncated = TRUNCATED.exec(text);
  if (!truncated) return null;
  const date = composeDate(truncated[1], truncated[2] ?? '00', '00');
  return date === null ? null : { date, time: null, offset: null };
}

/** Reads an IPTC date, `19980712`, where 00 stands for an unknown part. Source: IPTC-NAA IIM 4.2, 2:55. */
export function readIptcDate(text: string): FileDate | null {
  const match = /^(\d{4})(\d{2})(\d{2})$/.exec(text.trim());
  const date = match ? composeDate(match[1], match[2], match[3]) : null;
  return date === null ? null : { date, time: null, offset: null };
}

/** An offset from UTC as Exif and XMP write it, or null for anything else. */
export function readOffset(text: string | undefined): string | null {
  const match = /^\s*(?:Z|[+-](\d{2}):(\d{2}))\s*$/.exec(text ?? '');
  if (!match || Number(match[1] ?? 0) > 14 || Number(match[2] ?? 0) > 59) return null;
  return match[0].trim();
}

/** The whole as one text: `2019-11-02T21:04:05+09:00`, or the date alone. */
export function formatFileDate(date: FileDate): string {
  return date.time === null ? date.date : `${date.date}T${date.time}${date.offset ?? ''}`;
}

function composeDate(year = '', month = '', day = ''): string | null {
  if (Number(year) === 0) return null;
  if (month === '00') return day === '00' ? year : null;
  if (Number(month) > 12) return null;
  if (day === '00') return `${year}-${month}`;
  return Number(day) <= daysInMonth(Number(year), Number(month)) ? `${year}-${month}-${day}` : null;
}

function composeTime(hour?: string, minute?: string, second = '00', fraction = ''): string | null {
  if (hour === undefined || minute === undefined) return null;
  if (Number(hour) > 23 || Number(minute) > 59 || Number(second) > 59) return null;
  return `${hour}:${minute}:${second}${fraction}`;
}

function daysInMonth(year: number, month: number): number {
  if (month === 2) return (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0 ? 29 : 28;
  return month === 4 || month === 6 || month === 9 || month === 11 ? 30 : 31;
}
