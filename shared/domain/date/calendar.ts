/** A day of the Gregorian calendar: year 1 to 9999, month 1 to 12, day from 1. */
export interface CalendarDay {
  readonly year: number;
  readonly month: number;
  readonly day: number;
}

/** Days of a month; `month` 1 to 12. Every fourth year is a leap year, full centuries only when divisible by 400. */
export function daysInMonth(year: number, month: number): number {
  if (month === 2) return (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0 ? 29 : 28;
  return [4, 6, 9, 11].includes(month) ? 30 : 31;
}

/** First day of the month that lies `months` after the given one (before when negative). */
export function monthLater(year: number, month: number, months: number): CalendarDay {
  const count = year * 12 + (month - 1) + months;
  return { year: Math.floor(count / 12), month: (((count % 12) + 12) % 12) + 1, day: 1 };
}

/** The last day of a month. */
export function lastOfMonth(year: number, month: number): CalendarDay {
  return { year, month, day: daysInMonth(year, month) };
}

/** The day before. */
export function dayBefore(day: CalendarDay): CalendarDay {
  if (day.day > 1) return { ...day, day: day.day - 1 };
  const before = monthLater(day.year, day.month, -1);
  return lastOfMonth(before.year, before.month);
}

/** The day after. */
export function dayAfter(day: CalendarDay): CalendarDay {
  if (day.day < daysInMonth(day.year, day.month)) return { ...day, day: day.day + 1 };
  return monthLater(day.year, day.month, 1);
}

/** `1998-07-12` */
export function formatDay(day: CalendarDay): string {
  return `${formatYear(day.year)}-${pad(day.month)}-${pad(day.day)}`;
}

/** Four digits. */
export function formatYear(year: number): string {
  return String(year).padStart(4, '0');
}

/** Two digits: of a month, or of a day. */
export function pad(value: number): string {
  return String(value).padStart(2, '0');
}
