const UTF_8 = new TextDecoder('utf-8', { fatal: true });
const LONGEST = 20_000;

/**
 * Text from a file as a person may read it, or null: up to the first zero byte, UTF-8 or else Latin-1, without
 * surrounding space. Text with control characters is rubbish and is dropped whole.
 */
export function cleanText(bytes: Buffer | null): string | null {
  if (bytes === null) return null;
  const end = bytes.indexOf(0);
  const used = end === -1 ? bytes : bytes.subarray(0, end);
  return cleanWords(decode(used));
}

/** The same for text that is decoded already. */
export function cleanWords(text: string): string | null {
  const clean = text.trim().slice(0, LONGEST);
  // Control characters other than tab and line ends, the replacement mark, and what is no character at all.
  return clean === '' || /[\p{Cc}\uFFFD\p{Cn}]/u.test(clean.replace(/[\t\n\r]/g, '')) ? null : clean;
}

function decode(bytes: Buffer): string {
  try {
    return UTF_8.decode(bytes);
  } catch {
    // Not UTF-8: older writers used the Latin alphabet of one byte per letter.
    return bytes.toString('latin1');
  }
}
