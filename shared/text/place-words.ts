import type { Place } from '../api/values.ts';

/** `1st`, `2nd`, `3rd`, `11th`. */
export function ordinal(number: number): string {
  const tens = number % 100;
  if (tens >= 11 && tens <= 13) return `${number}th`;
  return `${number}${['th', 'st', 'nd', 'rd'][number % 10] ?? 'th'}`;
}

/** A binder by its name, which may be only a number. */
export function nameBinder(name: string): string {
  return /^binder\b/i.test(name) ? name : `Binder ${name}`;
}

/** The number or letter of a binder as it stands large beside its page. */
export function shortBinder(name: string): string {
  return name.replace(/^binder\s+/i, '');
}

/** Where a frame lies, in one line: `Binder 7, page 31, row 5, 1st`. */
export function describePlace({ binder, page, row, position }: Place): string {
  return `${nameBinder(binder)}, page ${page}, row ${row}, ${ordinal(position)}`;
}
