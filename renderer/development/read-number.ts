/** A number as typed, `1000` or `1,5`; null for nothing or what is no number. */
export function readNumber(text: string): number | null {
  const tidy = text.trim().replace(',', '.').replace('−', '-');
  return /^-?\d+(\.\d+)?$/.test(tidy) ? Number(tidy) : null;
}
