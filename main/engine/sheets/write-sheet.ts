import { extname } from 'node:path';
import { appError } from '../../../shared/api/errors.ts';
import type { DisplayPage } from '../../../shared/sheet/display-list.ts';
import type { SheetLayout } from '../../../shared/sheet/sheet-layout.ts';
import { writeFileAtomically } from '../files/atomic-write.ts';
import type { FontShelf } from './font-file.ts';
import { paintPdf } from './paint-pdf.ts';
import { encodeRaster, imagesOf, paintRaster } from './paint-raster.ts';
import { makeTiles } from './picture-tiles.ts';
import type { PictureFile, UnreadablePicture } from './picture-tiles.ts';

/** Kinds of file a sheet is written as. */
export type SheetFormat = 'pdf' | 'png' | 'tiff';

export interface SheetFile {
  readonly path: string;
  readonly format: SheetFormat;
  /** Of the pictures in a PDF; of everything in PNG and TIFF. 36 to 1200. */
  readonly ppi: number;
  readonly overwrite: boolean;
  readonly title: string;
  readonly madeAt: Date;
}

/** What the sheet needs from the rest of the engine. */
export interface SheetSources {
  readonly pictureFile: PictureFile;
  readonly shelf: FontShelf;
  readonly signal: AbortSignal | null;
}

/** What was written, and which pictures are words on it because their file could not be read. */
export interface WrittenSheet {
  readonly files: readonly string[];
  readonly unreadable: readonly UnreadablePicture[];
}

/** The kind of file a name asks for, by its ending; null for any other ending. */
export function findSheetFormat(path: string): SheetFormat | null {
  const ending = extname(path).toLowerCase();
  if (ending === '.pdf') return 'pdf';
  if (ending === '.png') return 'png';
  return ending === '.tif' || ending === '.tiff' ? 'tiff' : null;
}

/**
 * Writes a laid-out sheet: one PDF, or one PNG or TIFF per page (`name-1.png`, `name-2.png` … when there are several).
 * Each file is written whole or not at all; with several, those before a failure stay.
 * @throws {AppError} paper_too_small when the layout is a misfit; nothing is written
 * @throws {AppError} sheet_empty when it has no pages
 * @throws {AppError} file_exists, disk_full, file_not_written
 */
export async function writeSheet(
  layout: SheetLayout,
  file: SheetFile,
  sources: SheetSources,
): Promise<WrittenSheet> {
  if (layout.misfit) throw appError('paper_too_small', { reason: layout.misfit.sentence });
  if (layout.pages.length === 0) throw appError('sheet_empty', { name: file.title });
  return file.format === 'pdf'
    ? writePdf(layout.pages, file, sources)
    : writeRasters(layout.pages, file, sources);
}

async function writePdf(
  pages: readonly DisplayPage[],
  file: SheetFile,
  { pictureFile, shelf, signal }: SheetSources,
): Promise<WrittenSheet> {
  const unreadable: UnreadablePicture[] = [];
  const tiles = [];
  for (const page of pages) {
    const made = await makeTiles(imagesOf(page), file.ppi, pictureFile, shelf, signal);
    tiles.push(made.tiles);
    unreadable.push(...made.unreadable);
  }
  const content = await paintPdf(pages, tiles, shelf, file);
  signal?.throwIfAborted();
  await writeFileAtomically(file.path, content, file);
  return { files: [file.path], unreadable };
}

async function writeRasters(
  pages: readonly DisplayPage[],
  file: SheetFile,
  { pictureFile, shelf, signal }: SheetSources,
): Promise<WrittenSheet> {
  const format = file.format === 'tiff' ? 'tiff' : 'png';
  const files: string[] = [];
  const unreadable: UnreadablePicture[] = [];
  for (const [index, page] of pages.entries()) {
    const made = await makeTiles(imagesOf(page), file.ppi, pictureFile, shelf, signal);
    unreadable.push(...made.unreadable);
    const content = await encodeRaster(paintRaster(page, made.tiles, file.ppi, shelf), format, file.ppi);
    signal?.throwIfAborted();
    const path = pages.length === 1 ? file.path : numberedPath(file.path, index + 1);
    await writeFileAtomically(path, content, file);
    files.push(path);
  }
  return { files, unreadable };
}

/** `sheet.png` → `sheet-2.png`. */
function numberedPath(path: string, number: number): string {
  const ending = extname(path);
  return `${path.slice(0, path.length - ending.length)}-${number}${ending}`;
}
