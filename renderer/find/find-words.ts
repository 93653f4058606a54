/** `1 frame`, `12 frames`, in groups of three from ten thousand on. */
export function count(many: number, one: string): string {
  return `${groupDigits(many)} ${many === 1 ? one : `${one}s`}`;
}

/** A count as it is read: `412`, `9 999`, `13 862`. */
function groupDigits(many: number): string {
  return String(many).replace(/\B(?=(\d{3})+$)/g, '\u2009');
}
