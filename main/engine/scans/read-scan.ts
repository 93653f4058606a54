import { isResourceFork } from './litter.ts';
import { previewPage, WHOLE_PREVIEW, type PagePreview, type PreviewOptions } from './make-preview.ts';
import { withOpenScan, type OpenScan } from './open-scan.ts';
import { readMetadata, type ScanMetadata } from './read-metadata.ts';
import { recogniseImage, type ImageKind } from './recognise.ts';
import { readStructure, type PageImage, type ScanStructure } from './scan-image.ts';
import type { ScanPage } from './scan-page.ts';
import { stateFor, type ScanReason, type ScanRemark, type ScanState } from './scan-reason.ts';

/** Everything a scan file tells. */
export interface ScanReading {
  readonly sizeBytes: number;
  /** Hexadecimal, of the whole file. */
  readonly sha256: string;
  /** By content; null when it is no picture. */
  readonly kind: ImageKind | null;
  readonly state: ScanState;
  /** Why it is not complete; null when it is. `describeReason` says it in plain words. */
  readonly reason: ScanReason | null;
  /** Worth saying though it can be used; each once. `describeRemark` says it in plain words. */
  readonly remarks: readonly ScanRemark[];
  /** All pages, previews and infrared pages included, in the order of the file. */
  readonly pages: readonly PageReading[];
  /** Index of the page that is the scan (of several, the first), or null when there is none. */
  readonly mainPage: number | null;
  readonly metadata: ScanMetadata | null;
}

/** A page with its preview; only pages that are scans have one, or the embedded preview of a scan that is refused. */
interface PageReading extends ScanPage {
  readonly preview: PagePreview | null;
}

/** How to read a scan. */
export interface ReadOptions extends PreviewOptions {
  /** Today, YYYY-MM-DD: only to tell dates that lie in the future. */
  readonly today: string;
}

/** Pages that are shown and judged; further ones are only listed. Our choice: more frames than any roll. */
const MOST_PAGES_SHOWN = 100;

/**
 * Reads one scan file: checksum, kind, pages, state, notes, and the previews, which the strict decode that judges the
 * file makes by the way. The file is only ever read, and no handle stays open. Bad content is an answer, not an error.
 * @throws {AppError} file_missing, file_unreadable when the file cannot be opened or read at all.
 */
export async function readScan(
  path: string,
  options: Partial<ReadOptions> & Pick<ReadOptions, 'today'>,
): Promise<ScanReading> {
  const { result, changed } = await withOpenScan(path, (scan) =>
    readOpen(scan, { ...WHOLE_PREVIEW, ...options }),
  );
  return changed ? { ...result, state: 'unfinished', reason: 'still_changing' } : result;
}

async function readOpen(scan: OpenScan, options: ReadOptions): Promise<ScanReading> {
  const file = { sizeBytes: scan.sizeBytes, sha256: scan.sha256 };
  if (scan.sizeBytes === 0) return { ...file, ...nothingIn('empty', null) };
  const kind = await recogniseImage(scan.source);
  if (kind === null) {
    const isCompanion = isResourceFork(await scan.source.read(0, 4));
    return { ...file, ...nothingIn(isCompanion ? 'companion_file' : 'not_an_image', null) };
  }
  const structure = await readStructure(scan, kind);
  if (typeof structure === 'string') return { ...file, ...nothingIn(structure, kind) };

  const judged = await judgePages(scan, structure, options);
  const main = chooseMainPage(structure);
  const read = main === null ? null : readMetadata(structure, main, options.today);
  const remarks = [...structure.remarks, ...judged.remarks, ...(read?.remarks ?? [])];
  return {
    ...file,
    kind,
    state: judged.reason === null ? 'complete' : stateFor(judged.reason),
    reason: judged.reason,
    remarks: [...new Set(remarks)],
    pages: judged.pages,
    mainPage: main?.page.index ?? null,
    metadata: read?.metadata ?? null,
  };
}

function nothingIn(reason: ScanReason, kind: ImageKind | null): Omit<ScanReading, 'sizeBytes' | 'sha256'> {
  return { kind, state: stateFor(reason), reason, remarks: [], pages: [], mainPage: null, metadata: null };
}

function chooseMainPage(structure: ScanStructure): PageImage | null {
  return structure.images.find(({ page }) => page.role === 'scan') ?? structure.images[0] ?? null;
}

async function judgePages(
  scan: OpenScan,
  structure: ScanStructure,
  options: ReadOptions,
): Promise<{ pages: PageReading[]; reason: ScanReason | null; remarks: ScanRemark[] }> {
  const remarks: ScanRemark[] = [];
  const previews = new Map<number, PagePreview>();
  const scans = structure.images.filter(({ page }) => page.role === 'scan');
  let reason: ScanReason | null = null;
  for (const image of scans.slice(0, MOST_PAGES_SHOWN)) {
    const { preview, rendered } = await previewPage(scan, structure, image, options);
    if (preview !== null) previews.set(image.page.index, preview);
    reason ??= rendered.reason;
    remarks.push(...rendered.remarks, ...image.remarks);
  }
  if (scans.length > MOST_PAGES_SHOWN) remarks.push('more_pages');
  if (structure.images.some(({ page }) => page.role === 'infrared')) remarks.push('has_infrared');
  if (previews.size === 0) {
    const stand = await showEmbedded(scan, structure, options);
    if (stand !== null) {
      previews.set(stand.index, stand.preview);
      remarks.push('shows_embedded_preview');
    }
  }
  const pages = structure.images.map(({ page }) => ({ ...page, preview: previews.get(page.index) ?? null }));
  return { pages, reason, remarks };
}

/** The largest embedded preview, for a scan of which nothing else can be shown. */
async function showEmbedded(
  scan: OpenScan,
  structure: ScanStructure,
  options: ReadOptions,
): Promise<{ index: number; preview: PagePreview } | null> {
  const candidates = structure.images
    .filter(({ page }) => page.role === 'preview')
    .sort((a, b) => b.page.width * b.page.height - a.page.width * a.page.height);
  for (const image of candidates) {
    const { preview } = await previewPage(scan, structure, image, options);
    if (preview !== null) return { index: image.page.index, preview };
  }
  return null;
}
