import PDFDocument from 'pdfkit';
import sharp from 'sharp';
import { missingCase } from '../../../shared/api/errors.ts';
import type {
  DisplayItem,
  DisplayPage,
  Face,
  ImageItem,
  TextItem,
} from '../../../shared/sheet/display-list.ts';
import { mmToPt } from '../../../shared/units/length.ts';
import type { FontShelf } from './font-file.ts';
import type { Tile } from './picture-tiles.ts';

/** What a document says about itself. `madeAt` is passed in, so that the same sheet gives the same bytes. */
export interface SheetDocument {
  readonly title: string;
  readonly madeAt: Date;
}

/** JPEG quality of the pictures, at full colour resolution. Our choice. */
const JPEG_QUALITY = 90;

/**
 * Pages as one PDF (PDF/A-2b: fonts embedded, colour declared as sRGB by its output intent), each page's media box exactly its
 * paper, with the wish that viewers print it unscaled. `tiles[page]` are the tiles of that page's pictures, in order.
 */
export async function paintPdf(
  pages: readonly DisplayPage[],
  tiles: readonly (readonly Tile[])[],
  shelf: FontShelf,
  { title, madeAt }: SheetDocument,
): Promise<Buffer> {
  const pictures = await Promise.all(tiles.map((each) => Promise.all(each.map(encodeTile))));
  const document = new PDFDocument({
    autoFirstPage: false,
    // No face until one is asked for: pdfkit would open its own Helvetica, which is not embedded.
    font: '',
    pdfVersion: '1.7',
    subset: 'PDF/A-2b',
    displayTitle: true,
    info: {
      Title: title,
      Creator: 'Edgeprint',
      Producer: 'Edgeprint',
      CreationDate: madeAt,
      ModDate: madeAt,
    },
  });
  const chunks: Buffer[] = [];
  document.on('data', (chunk: Buffer) => chunks.push(chunk));
  const done = new Promise<void>((resolve, reject) => {
    document.on('end', resolve);
    document.on('error', reject);
  });
  askForNoScaling(document);
  const registered = new Set<Face>();
  const useFace = (face: Face): void => {
    if (!registered.has(face)) document.registerFont(face, shelf.file(face));
    registered.add(face);
    document.font(face);
  };
  for (const [index, page] of pages.entries()) {
    document.addPage({ size: [mmToPt(page.widthMm), mmToPt(page.heightMm)], margin: 0 });
    const next = (pictures[index] ?? []).values();
    for (const item of page.items) {
      if (item.kind === 'image') paintImage(document, item, next.next().value);
      else paintShape(document, item, useFace);
    }
  }
  document.end();
  await done;
  return Buffer.concat(chunks);
}

/** Source: ISO 32000-1:2008, 12.2, Table 150, PrintScaling: None asks the print dialog for no page scaling. */
function askForNoScaling(document: PDFKit.PDFDocument): void {
  const root: unknown = '_root' in document ? document._root : null;
  const catalog: unknown = isObject(root) && 'data' in root ? root.data : null;
  const preferences: unknown =
    isObject(catalog) && 'ViewerPreferences' in catalog ? catalog.ViewerPreferences : null;
  const entries: unknown = isObject(preferences) && 'data' in preferences ? preferences.data : null;
  if (!isObject(entries)) throw new Error('pdfkit keeps its viewer preferences elsewhere now');
  Object.assign(entries, { PrintScaling: 'None' });
}

function isObject(value: unknown): value is object {
  return typeof value === 'object' && value !== null;
}

async function encodeTile(tile: Tile): Promise<Buffer> {
  const picture = sharp(tile.pixels, {
    raw: { width: tile.widthPx, height: tile.heightPx, channels: tile.channels },
  });
  const ready = tile.channels === 1 ? picture.toColourspace('b-w') : picture;
  return ready.jpeg({ quality: JPEG_QUALITY, chromaSubsampling: '4:4:4', optimiseCoding: true }).toBuffer();
}

function paintImage(document: PDFKit.PDFDocument, item: ImageItem, jpeg: Buffer | undefined): void {
  if (!jpeg) throw new Error('Fewer tiles than pictures');
  document.image(jpeg, mmToPt(item.xMm), mmToPt(item.yMm), {
    width: mmToPt(item.widthMm),
    height: mmToPt(item.heightMm),
  });
}

function paintShape(
  document: PDFKit.PDFDocument,
  item: Exclude<DisplayItem, ImageItem>,
  useFace: (face: Face) => void,
): void {
  switch (item.kind) {
    case 'rect': {
      const [x, y, width, height] = [
        mmToPt(item.xMm),
        mmToPt(item.yMm),
        mmToPt(item.widthMm),
        mmToPt(item.heightMm),
      ];
      if (item.radiusMm > 0) document.roundedRect(x, y, width, height, mmToPt(item.radiusMm));
      else document.rect(x, y, width, height);
      document.fill(item.fill);
      return;
    }
    case 'line': {
      for (const [index, [x, y]] of item.points.entries()) {
        if (index === 0) document.moveTo(mmToPt(x), mmToPt(y));
        else document.lineTo(mmToPt(x), mmToPt(y));
      }
      if (item.closed) document.closePath();
      document.lineWidth(mmToPt(item.widthMm)).lineCap(item.cap).lineJoin('round').stroke(item.colour);
      return;
    }
    case 'text':
      paintText(document, item, useFace);
      return;
    default:
      missingCase(item);
  }
}

function paintText(document: PDFKit.PDFDocument, item: TextItem, useFace: (face: Face) => void): void {
  document.save();
  document.translate(mmToPt(item.xMm), mmToPt(item.yMm));
  if (item.turned !== 0) document.rotate(item.turned);
  document.fillColor(item.colour);
  let alongMm = 0;
  for (const run of item.runs) {
    useFace(run.face);
    document
      .fontSize(mmToPt(item.sizeMm))
      .text(run.text, mmToPt(alongMm), 0, { lineBreak: false, baseline: 'alphabetic' });
    alongMm += run.widthMm;
  }
  document.restore();
}
