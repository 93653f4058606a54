import { resolve } from 'node:path';
import { appError } from '../../../shared/api/errors.ts';
import type { Archive } from '../archive/archive.ts';
import { readScan } from '../scans/read-scan.ts';
import { describeReason } from '../scans/scan-reason.ts';

/** The main page of a picture file from anywhere, as it is shown. */
export interface PictureOfFile {
  readonly path: string;
  readonly page: number;
  /** JPEG in sRGB, at most 1600 px. */
  readonly preview: Buffer;
  /** A raw linear scan that does not say so. */
  readonly linear: boolean;
}

/** Reads a picture file that need not be in the archive. @throws {AppError} picture_unreadable, file_missing */
export async function readPictureOfFile(archive: Archive, file: string): Promise<PictureOfFile> {
  const path = resolve(file);
  const reading = await readScan(path, { today: archive.now().toISOString().slice(0, 10) });
  const page = reading.pages.find((each) => each.index === reading.mainPage) ?? reading.pages[0];
  if (page?.preview?.large)
    return { path, page: page.index, preview: page.preview.large, linear: page.preview.linear };
  const reason = reading.reason === null ? 'it shows nothing' : describeReason(reading.reason);
  throw appError('picture_unreadable', { path, reason });
}
