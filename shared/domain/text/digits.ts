const DECIMAL_DIGIT = /\p{Nd}/u;
const NOT_ASCII_DIGIT = /(?![0-9])\p{Nd}/gu;

/**
 * Value 0 to 9 of a decimal digit of any script.
 * Every run of decimal digits in Unicode holds whole sets of ten in ascending order, zero first, so the place in
 * the run gives the value. Source: Unicode Standard, section 4.6 (Numeric Value), general category Nd; from memory.
 */
function digitValue(digit: string): number {
  const code = digit.codePointAt(0) ?? 0;
  let before = 0;
  while (DECIMAL_DIGIT.test(String.fromCodePoint(code - before - 1))) before += 1;
  return before % 10;
}

/** `text` with the decimal digits of every script (Arabic-Indic, full width and so on) written as 0 to 9. */
export function foldDigits(text: string): string {
  return text.replace(NOT_ASCII_DIGIT, (digit) => String(digitValue(digit)));
}
