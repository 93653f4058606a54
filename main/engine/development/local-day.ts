/** The calendar day `YYYY-MM-DD` of an instant where the user is. */
export function localDay(instant: Date): string {
  const two = (value: number) => String(value).padStart(2, '0');
  const year = String(instant.getFullYear()).padStart(4, '0');
  return `${year}-${two(instant.getMonth() + 1)}-${two(instant.getDate())}`;
}

/** An instant as it is kept, so that two of them sort as text: `at` (ISO 8601), or now. */
export function instantOrNow({ now }: { readonly now: () => Date }, at: string | null): string {
  return (at === null ? now() : new Date(at)).toISOString();
}
