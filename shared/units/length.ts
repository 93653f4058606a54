/** Millimetres per inch, exact since the international yard and pound agreement of 1959. */
export const MM_PER_INCH = 25.4;

/** PostScript points per inch. Source: ISO 32000-1:2008, 8.3.2.3, default user space unit 1/72 inch. */
export const PT_PER_INCH = 72;

/** Length in millimetres to PDF points. */
export function mmToPt(mm: number): number {
  return (mm * PT_PER_INCH) / MM_PER_INCH;
}

/** Length in PDF points to millimetres. */
export function ptToMm(pt: number): number {
  return (pt * MM_PER_INCH) / PT_PER_INCH;
}

/** Length in millimetres to whole pixels at `ppi` pixels per inch, rounded to nearest. */
export function mmToPx(mm: number, ppi: number): number {
  return Math.round((mm / MM_PER_INCH) * ppi);
}
