/** `1 frame`, `12 frames`, in groups of three from ten thousand on. */
export function count(many: number, one: string): string {
  return `${groupDigits(many)} ${many === 1 ? one : `${one}s`}`;
}

/** A count as it is read: `412`, `9 999`, `13 862`. */
function groupDigits(many: number): string {
  return String(many).replace(/\B(?=(\d{3})+$)/g, '\u2009');
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
