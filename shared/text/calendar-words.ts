import type { CalendarDate } from '../api/values.ts';
import { daysInMonth } from '../domain/date/calendar.ts';
import { formatPartialDate } from '../domain/date/partial-date.ts';

/** A date as the user gave it; one that was given in the signs of EDTF is put into words: `about 2024-04-20`. */
export function describeDate({ edtf, typed }: Pick<CalendarDate, 'edtf' | 'typed'>): string {
  return edtf === typed ? formatPartialDate(edtf) : typed;
}

/** The days between which something was: `2024-04-13`, `2024-04-13 to 04-20`, `until 1990-12-31`. */
export function describeSpan(span: {
  readonly earliest: string | null;
  readonly latest: string | null;
}): string {
  const { earliest, latest } = span;
  if (earliest === null) return latest === null ? '' : `until ${latest}`;
  if (latest === null) return `from ${earliest}`;
  if (earliest === latest) return earliest;
  return wholePeriod(earliest, latest) ?? `${earliest} to ${withoutYearOf(earliest, latest)}`;
}

/** The year is not said twice. */
function withoutYearOf(earliest: string, latest: string): string {
  return latest.startsWith(earliest.slice(0, 5)) ? latest.slice(5) : latest;
}

/** A whole year or month by its own name. */
function wholePeriod(earliest: string, latest: string): string | null {
  const [year = '', month = '', day = ''] = earliest.split('-');
  if (day !== '01' || !latest.startsWith(year)) return null;
  if (month === '01' && latest === `${year}-12-31`) return year;
  const lastDay = daysInMonth(Number(year), Number(month));
  return latest === `${year}-${month}-${lastDay}` ? `${year}-${month}` : null;
}
