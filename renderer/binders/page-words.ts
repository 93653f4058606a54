import type { Page } from '../../shared/api/methods/filing-methods.ts';
import { stripLengthMm } from '../film/film-geometry.ts';
import { hasSinglePockets } from '../film/page-geometry.ts';
import type { PocketPlace } from '../film/sleeve-page.tsx';

/** `1 roll`, `12 rolls`. */
export function count(many: number, one: string, more = `${one}s`): string {
  return `${many} ${many === 1 ? one : more}`;
}

/** `Binder 9`, unless the name says binder itself. */
export function binderWords(name: string): string {
  return /^binder\b/i.test(name) ? name : `Binder ${name}`;
}

/** The years of a binder's film as on a label: `2023`, `2023–24`, `1998–2003`; null where no date is known. */
export function yearWords(
  shot: { readonly earliest: string | null; readonly latest: string | null } | null,
): string | null {
  const [first, last] = [shot?.earliest?.slice(0, 4), shot?.latest?.slice(0, 4)];
  const year = first ?? last;
  if (year === undefined) return null;
  if (first === undefined || last === undefined || first === last) return year;
  return `${first}–${first.slice(0, 2) === last.slice(0, 2) ? last.slice(2) : last}`;
}

/** The pockets of a page: a row where it is one pocket, else each position. */
export function pocketsOfPage(page: Pick<Page, 'layout'>): readonly PocketPlace[] {
  const { rows, positions } = page.layout;
  const perRow = hasSinglePockets(page.layout) ? positions : 1;
  return Array.from({ length: rows * perRow }, (_, index) => ({
    row: Math.floor(index / perRow) + 1,
    position: (index % perRow) + 1,
  }));
}

/** Whose film lies in a pocket, or null when it is free; the film of one strip is not counted. */
export function rollInPocket(
  page: Pick<Page, 'layout' | 'strips'>,
  pocket: PocketPlace,
  exceptStripId: number | null = null,
): string | null {
  const single = hasSinglePockets(page.layout);
  const there = page.strips.find(
    (strip) =>
      strip.stripId !== exceptStripId &&
      strip.row === pocket.row &&
      (!single || strip.position === pocket.position),
  );
  return there?.roll ?? null;
}

/** A strip, as far as it matters where it goes in. */
export interface MovableStrip {
  readonly stripId: number;
  readonly filmFormat: string;
  readonly frames: readonly { readonly frameFormat: string }[];
}

/**
 * What stands against laying a strip into a pocket, in words, or null: film of another roll, or too short a pocket.
 * The engine has the last word.
 */
export function obstacleTo(
  strip: MovableStrip,
  page: Pick<Page, 'layout' | 'strips'>,
  pocket: PocketPlace,
): string | null {
  const roll = rollInPocket(page, pocket, strip.stripId);
  if (roll !== null) return `taken by roll ${roll}`;
  if (!page.layout.filmFormats.includes(strip.filmFormat)) return `not for ${strip.filmFormat} film`;
  const lengthMm = stripLengthMm(
    strip.filmFormat,
    strip.frames.map(({ frameFormat }) => frameFormat),
  );
  const overMm = lengthMm - page.layout.pocketLengthMm;
  return overMm > 0 ? `${Math.ceil(overMm)} mm too short for ${count(strip.frames.length, 'frame')}` : null;
}

/** The first free pocket of a page, or null. */
export function firstFreePocket(
  page: Pick<Page, 'layout' | 'strips'>,
  exceptStripId: number | null = null,
): PocketPlace | null {
  return pocketsOfPage(page).find((pocket) => rollInPocket(page, pocket, exceptStripId) === null) ?? null;
}

/** A pocket in words: `row 3`, `row 1, place 2`. */
export function pocketWords(page: Pick<Page, 'layout'>, pocket: PocketPlace): string {
  return hasSinglePockets(page.layout) ? `row ${pocket.row}, place ${pocket.position}` : `row ${pocket.row}`;
}

/** How full a page is: `4 of 7 pockets`. */
export function fullnessWords(page: Pick<Page, 'layout' | 'strips'>): string {
  const pockets = pocketsOfPage(page);
  const taken = pockets.filter((pocket) => rollInPocket(page, pocket) !== null).length;
  return `${taken} of ${count(pockets.length, 'pocket')}`;
}

/** A roll on a page, with the rows it lies in, from the top. */
export interface RollOnPage {
  readonly rollId: number;
  readonly number: string;
  readonly title: string | null;
  readonly rows: readonly number[];
  readonly frames: number;
}

/** The rolls of a page in the order they lie in. */
export function rollsOnPage(page: Pick<Page, 'strips'>): readonly RollOnPage[] {
  const found = new Map<number, RollOnPage>();
  for (const strip of [...page.strips].sort((a, b) => a.row - b.row || a.position - b.position)) {
    const before = found.get(strip.rollId);
    const rows = before?.rows ?? [];
    found.set(strip.rollId, {
      rollId: strip.rollId,
      number: strip.roll,
      title: strip.title,
      rows: rows.includes(strip.row) ? rows : [...rows, strip.row],
      frames: (before?.frames ?? 0) + strip.frames.length,
    });
  }
  return [...found.values()];
}

/** Rows in words: `row 3`, `rows 1 and 2`, `rows 1 to 4`, `rows 1, 3 and 5`. */
export function rowWords(rows: readonly number[]): string {
  const [first, last] = [rows[0] ?? 0, rows.at(-1) ?? 0];
  if (rows.length < 2) return `row ${first}`;
  if (rows.length === 2) return `rows ${first} and ${last}`;
  if (last - first + 1 === rows.length) return `rows ${first} to ${last}`;
  return `rows ${rows.slice(0, -1).join(', ')} and ${last}`;
}
