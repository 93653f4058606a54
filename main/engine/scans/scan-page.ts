/** What a page of a scan file is for. */
export type PageRole = 'scan' | 'preview' | 'infrared';

/** One picture in a scan file. */
export interface ScanPage {
  /** Place in the file: pages of the main chain from 0, then sub-directories in the order they are found. */
  readonly index: number;
  readonly role: PageRole;
  /** Upright, in px. */
  readonly width: number;
  readonly height: number;
  /** Exif orientation, 1 to 8, that turns the stored picture upright. */
  readonly orientation: number;
  readonly bits: number;
  /** All samples of a pixel, with extra ones. */
  readonly channels: number;
  /** Which sample, from 0, holds infrared, or null. */
  readonly infraredChannel: number | null;
}

/** Whether this orientation lays the picture on its side. */
export function isTurnedSideways(orientation: number): boolean {
  return orientation >= 5 && orientation <= 8;
}
