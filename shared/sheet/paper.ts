import type { Checked } from '../domain/checked.ts';
import { accept, refuse } from '../domain/checked.ts';
import { MM_PER_INCH } from '../units/length.ts';

/** A sheet of paper, upright. Millimetres. */
export type PaperSize = { readonly widthMm: number; readonly heightMm: number };

/** A paper of the table: `id` is what is kept, `name` what is shown. */
export type Paper = PaperSize & { readonly id: string; readonly name: string };

/** The smallest and largest side of a paper, mm. Our choice. */
const PAPER_SIDE_MM = { least: 20, most: 2000 } as const;

function inchPaper(id: string, name: string, widthInch: number, heightInch: number): Paper {
  return { id, name, widthMm: widthInch * MM_PER_INCH, heightMm: heightInch * MM_PER_INCH };
}

/**
 * The papers offered. A4 and A3: ISO 216. Letter: 8.5 × 11 in. Photographic papers by their names in inches or
 * centimetres; the paper in the box may be a millimetre less (common practice, no source).
 */
export const PAPERS: readonly Paper[] = [
  { id: 'a4', name: 'A4', widthMm: 210, heightMm: 297 },
  inchPaper('letter', 'Letter, 8.5 × 11 in', 8.5, 11),
  inchPaper('8x10in', '8 × 10 in', 8, 10),
  inchPaper('9.5x12in', '9.5 × 12 in', 9.5, 12),
  { id: '24x30cm', name: '24 × 30 cm', widthMm: 240, heightMm: 300 },
  inchPaper('11x14in', '11 × 14 in', 11, 14),
  { id: '30x40cm', name: '30 × 40 cm', widthMm: 300, heightMm: 400 },
  { id: 'a3', name: 'A3', widthMm: 297, heightMm: 420 },
];

/** The paper of that id, or null. */
export function findPaper(id: string): Paper | null {
  return PAPERS.find((paper) => paper.id === id) ?? null;
}

const MM_PER_UNIT: Readonly<Record<string, number>> = {
  '': 1,
  mm: 1,
  cm: 10,
  in: MM_PER_INCH,
  '"': MM_PER_INCH,
  '″': MM_PER_INCH,
};

const SIZE =
  /^\s*(?<width>\d+(?:[.,]\d+)?)\s*(?:mm|cm|in|"|″)?\s*[x×*]\s*(?<height>\d+(?:[.,]\d+)?)\s*(?<unit>mm|cm|in|"|″)?\s*$/i;

/**
 * Reads a size as typed: `210 x 297`, `24x30cm`, `8.5 × 11 in`, `8,5x11"`. Without a unit it is millimetres; a
 * unit after the second figure counts for both. The sides stay as typed, width first.
 */
export function parsePaperSize(
  text: string,
): Checked<PaperSize, 'paper_unreadable' | 'paper_too_small' | 'paper_too_large'> {
  const groups = SIZE.exec(text)?.groups;
  const mmPerUnit = MM_PER_UNIT[(groups?.['unit'] ?? '').toLowerCase()];
  if (!groups || mmPerUnit === undefined) return refuse('paper_unreadable');
  const widthMm = Number(groups['width']?.replace(',', '.')) * mmPerUnit;
  const heightMm = Number(groups['height']?.replace(',', '.')) * mmPerUnit;
  if (Math.min(widthMm, heightMm) < PAPER_SIDE_MM.least) return refuse('paper_too_small');
  if (Math.max(widthMm, heightMm) > PAPER_SIDE_MM.most) return refuse('paper_too_large');
  return accept({ widthMm, heightMm });
}

/** A size as `parsePaperSize` reads it: `203.2 × 254 mm`, to a tenth of a millimetre. */
export function formatPaperSize(size: PaperSize): string {
  const round = (mm: number) => String(Math.round(mm * 10) / 10);
  return `${round(size.widthMm)} × ${round(size.heightMm)} mm`;
}
