import type { Place } from '../../shared/api/values.ts';

/** `1 frame`, `12 frames`, in groups of three from ten thousand on. */
export function count(many: number, one: string): string {
  return `${groupDigits(many)} ${many === 1 ? one : `${one}s`}`;
}

/** A count as it is read: `412`, `9 999`, `13 862`. */
function groupDigits(many: number): string {
  return String(many).replace(/\B(?=(\d{3})+$)/g, '\u2009');
}

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

/** A search with one more thing asked for. */
export function addTerm(query: string, term: string): string {
  return query.trim() === '' ? term : `${query.trim()} ${term}`;
}

/**
 * A search without one of the parts that must all hold; the part is text that the search holds as typed. The same
 * search when it is not found in it.
 */
export function removePart(query: string, part: string): string {
  const at = query.indexOf(part);
  if (at < 0) return query;
  return `${query.slice(0, at)} ${query.slice(at + part.length)}`.replace(/\s+/g, ' ').trim();
}
