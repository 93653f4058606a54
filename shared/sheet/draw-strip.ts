import { parseFrameLabel } from '../domain/frame/frame-label.ts';
import { PERFORATION_PITCH_MM, PITCH_135_MM } from '../domain/film/frame-format.ts';
import { cellMm, stripLengthMm } from './film-block.ts';
import type { RowBand } from './film-block.ts';
import type { DisplayItem } from './display-list.ts';
import { CAPITAL_EM } from './font-metrics.ts';
import { drawText } from './draw-text.ts';
import type { TextReport } from './draw-text.ts';
import { drawPencilMark } from './pencil-marks.ts';
import type { PlannedFrame, PlannedPage, PlannedStrip } from './sheet-plan.ts';
import type { SheetSpec } from './sheet-spec.ts';
import type { PlacedFrame } from './sheet-layout.ts';

/**
 * Long-pitch (KS) perforation of still film: 2.80 mm across the film, 1.98 mm along it, its outer side 2.01 mm from
 * the film's edge, corners of 0.51 mm.
 * Source: from memory of ISO 491 and ISO 1007 (0.110 × 0.078 in, 0.079 in, radius 0.020 in), not looked up; it agrees with 25.4 mm between the two rows:
 * 35 − 2 × (2.01 + 2.80) = 25.38.
 */
export const PERFORATION = { acrossMm: 2.8, alongMm: 1.98, fromEdgeMm: 2.01, radiusMm: 0.51 } as const;

const PAPER = '#ffffff';
const INK = '#101010';
const INK_3 = '#4c4c4c';
const FILM = '#000000';
const EDGE_PRINT = '#c8c8c8';
const HALF_NUMBER = '#9b9b9b';
const NO_SCAN = '#2b2b2b';

/** Sizes of type on film, mm at true size. Our choice: what a 2 mm edge holds. */
const EDGE_TYPE_MM = 2;
const EDGE_TYPE_MOST_MM = 2.6;
const CAPTION_TYPE_MM = 2.5;
const REMARK_TYPE_MM = 2.4;

/** Everything that draws a strip: where, how large, and how its edges are cut. */
export interface StripPlace {
  readonly page: PlannedPage;
  readonly spec: SheetSpec;
  readonly band: RowBand;
  /** Paper of the strip's left end and of the row's upper edge. */
  readonly xMm: number;
  readonly yMm: number;
  readonly scale: number;
  readonly paperPage: number;
  readonly report: TextReport;
}

/** A strip drawn: the film first, then pictures, then what is written; pencil on top. */
export interface DrawnStrip {
  readonly items: readonly DisplayItem[];
  readonly frames: readonly PlacedFrame[];
}

/** A frame with the place of its picture on paper. */
interface PlacedPicture {
  readonly frame: PlannedFrame;
  readonly xMm: number;
  readonly yMm: number;
  readonly widthMm: number;
  readonly heightMm: number;
  /** The film that belongs to it, on paper. */
  readonly cellXMm: number;
  readonly cellWidthMm: number;
}

/** Draws one strip where it lies. */
export function drawStrip(strip: PlannedStrip, place: StripPlace): DrawnStrip {
  const pictures = placePictures(strip, place);
  return {
    items: [
      ...drawFilm(strip, place),
      ...pictures.flatMap((picture) => drawPicture(picture, place)),
      ...drawEdges(strip, pictures, place),
      ...pictures.flatMap((picture) => drawNotes(picture, place)),
      ...(place.spec.pencilMarks
        ? pictures.flatMap((picture) =>
            picture.frame.marks.flatMap((mark) =>
              drawPencilMark(mark, picture.frame.key, picture, place.scale),
            ),
          )
        : []),
    ],
    frames: pictures.map(({ frame, xMm, yMm, widthMm, heightMm }) => ({
      key: frame.key,
      page: place.paperPage,
      xMm,
      yMm,
      widthMm,
      heightMm,
    })),
  };
}

/** From millimetres across the film, from its upper edge, to paper. */
function acrossToPaper(acrossMm: number, { band, yMm, scale }: StripPlace): number {
  return yMm + (acrossMm - band.cutAboveMm) * scale;
}

function placePictures(strip: PlannedStrip, place: StripPlace): readonly PlacedPicture[] {
  const { scale, page, xMm } = place;
  let alongMm = 0;
  return strip.frames.map((frame) => {
    const cell = cellMm(frame);
    const { widthMm, heightMm } = frame.picture;
    const picture = {
      frame,
      xMm: xMm + (alongMm + (cell - widthMm) / 2) * scale,
      yMm: acrossToPaper((page.film.widthMm - heightMm) / 2, place),
      widthMm: widthMm * scale,
      heightMm: heightMm * scale,
      cellXMm: xMm + alongMm * scale,
      cellWidthMm: cell * scale,
    };
    alongMm += cell;
    return picture;
  });
}

function drawFilm(strip: PlannedStrip, place: StripPlace): DisplayItem[] {
  const { spec, band, scale, xMm, yMm } = place;
  const widthMm = stripLengthMm(strip) * scale;
  const heightMm = (band.heightMm - band.captionBandMm) * scale;
  if (spec.look === 'ink-saving') {
    return [outline({ xMm, yMm, widthMm, heightMm }, 0.1 * scale, '#a0a0a0')];
  }
  const film: DisplayItem = { kind: 'rect', xMm, yMm, widthMm, heightMm, radiusMm: 0, fill: FILM };
  return [film, ...drawPerforations(strip, place)];
}

/** The holes of the edges that are left. They lie half a pitch from the cut, eight to a frame of 38 mm. */
function drawPerforations(strip: PlannedStrip, place: StripPlace): DisplayItem[] {
  const { page, band, scale, xMm } = place;
  if (!page.film.perforated) return [];
  const rows = [
    ...(band.cutAboveMm === 0 ? [PERFORATION.fromEdgeMm] : []),
    ...(band.cutBelowMm === 0 ? [page.film.widthMm - PERFORATION.fromEdgeMm - PERFORATION.acrossMm] : []),
  ];
  const count = Math.floor(stripLengthMm(strip) / PERFORATION_PITCH_MM + 1e-6);
  return rows.flatMap((acrossMm) =>
    Array.from({ length: count }, (_, index): DisplayItem => {
      const alongMm = (index + 0.5) * PERFORATION_PITCH_MM - PERFORATION.alongMm / 2;
      return {
        kind: 'rect',
        xMm: xMm + alongMm * scale,
        yMm: acrossToPaper(acrossMm, place),
        widthMm: PERFORATION.alongMm * scale,
        heightMm: PERFORATION.acrossMm * scale,
        radiusMm: PERFORATION.radiusMm * scale,
        fill: PAPER,
      };
    }),
  );
}

function drawPicture(picture: PlacedPicture, { spec, scale, report }: StripPlace): DisplayItem[] {
  const { frame, xMm, yMm, widthMm, heightMm } = picture;
  const inkSaving = spec.look === 'ink-saving';
  const edge = inkSaving ? [outline(picture, 0.15 * scale, '#606060')] : [];
  if (frame.scan) {
    const { pictureId, region, turned, mirrored } = frame.scan;
    const ground = inkSaving ? PAPER : FILM;
    return [
      {
        kind: 'image',
        xMm,
        yMm,
        widthMm,
        heightMm,
        frameKey: frame.key,
        pictureId,
        region,
        turned,
        mirrored,
        ground,
      },
      ...edge,
    ];
  }
  const sizeMm = REMARK_TYPE_MM * scale;
  const words = drawText(
    frame.remark ?? 'no scan',
    {
      xMm: xMm + widthMm / 2,
      yMm: yMm + (heightMm + CAPITAL_EM * sizeMm) / 2,
      sizeMm,
      weight: 'regular',
      colour: inkSaving ? INK_3 : EDGE_PRINT,
      roomMm: widthMm,
      align: 'middle',
    },
    report,
  );
  if (inkSaving) return [...edge, ...words];
  return [{ kind: 'rect', xMm, yMm, widthMm, heightMm, radiusMm: 0, fill: NO_SCAN }, ...words];
}

function outline(
  { xMm, yMm, widthMm, heightMm }: Pick<PlacedPicture, 'xMm' | 'yMm' | 'widthMm' | 'heightMm'>,
  lineMm: number,
  colour: string,
): DisplayItem {
  return {
    kind: 'line',
    points: [
      [xMm, yMm],
      [xMm + widthMm, yMm],
      [xMm + widthMm, yMm + heightMm],
      [xMm, yMm + heightMm],
    ],
    closed: true,
    cap: 'butt',
    widthMm: lineMm,
    colour,
  };
}

/** The half-number that follows a number on 35 mm film, `12` → `12A`, `12A` → `13`; null for other labels. */
export function halfNumberAfter(label: string): string | null {
  const read = parseFrameLabel(label);
  if (!read.ok) return null;
  const { number, letter } = read.value;
  if (letter === '') return `${label.trim()}A`;
  return letter === 'A' ? String(number + 1) : null;
}

/** Where edge print stands across the film, and how large, on paper. */
interface EdgeType {
  readonly baselineMm: number;
  readonly sizeMm: number;
}

/** The strip of an edge between its hole (or the picture) and the film's end; null when there is no room to write. */
function edgeType(which: 'above' | 'below', pictureMm: number, place: StripPlace): EdgeType | null {
  const { page, band, scale, spec } = place;
  const cut = which === 'above' ? band.cutAboveMm : band.cutBelowMm;
  if (which === 'below' && band.labelBandMm > 0) {
    const sizeMm = EDGE_TYPE_MM * scale;
    const bandTop = place.yMm + (band.heightMm - band.captionBandMm - band.labelBandMm) * scale;
    return { baselineMm: bandTop + (band.labelBandMm * scale + CAPITAL_EM * sizeMm) / 2, sizeMm };
  }
  if (cut > 0) return null;
  const edge = (page.film.widthMm - pictureMm) / 2;
  const holes = page.film.perforated && spec.look === 'film';
  const room = holes ? PERFORATION.fromEdgeMm : edge;
  const typeMm = Math.min(holes ? EDGE_TYPE_MM : EDGE_TYPE_MOST_MM, (0.65 * room) / CAPITAL_EM);
  if (typeMm < 1) return null;
  const middle = which === 'above' ? room / 2 : page.film.widthMm - room / 2;
  const sizeMm = typeMm * scale;
  return { baselineMm: acrossToPaper(middle, place) + (CAPITAL_EM * sizeMm) / 2, sizeMm };
}

function drawEdges(
  strip: PlannedStrip,
  pictures: readonly PlacedPicture[],
  place: StripPlace,
): DisplayItem[] {
  const inkSaving = place.spec.look === 'ink-saving';
  return pictures.flatMap((picture, index): DisplayItem[] => {
    const { frame, cellXMm, cellWidthMm } = picture;
    const above = edgeType('above', frame.picture.heightMm, place);
    const below = edgeType('below', frame.picture.heightMm, place);
    const edgeText = strip.edgeTexts[index % Math.max(1, strip.edgeTexts.length)];
    const quiet = { weight: 'regular', colour: inkSaving ? INK_3 : HALF_NUMBER } as const;
    const loud = { weight: 'bold', colour: inkSaving ? INK : EDGE_PRINT } as const;
    const items: DisplayItem[] = [];
    if (above && edgeText !== undefined) {
      const at = { xMm: cellXMm + 0.18 * cellWidthMm, yMm: above.baselineMm, sizeMm: above.sizeMm };
      items.push(...drawText(edgeText, { ...at, ...quiet, roomMm: 0.78 * cellWidthMm }, place.report));
    }
    if (!below) return [...items, ...drawGapLabel(picture, place)];
    const half =
      place.page.film.perforated && frame.pitchMm >= PITCH_135_MM ? halfNumberAfter(frame.label) : null;
    const numberXMm = half === null ? picture.xMm + below.sizeMm * 0.4 : cellXMm + 0.25 * cellWidthMm;
    const at = { xMm: numberXMm, yMm: below.baselineMm, sizeMm: below.sizeMm };
    const number = drawText(frame.label, { ...at, ...loud, roomMm: 0.5 * cellWidthMm }, place.report);
    items.push(...number, ...drawTriangle(number, below, loud.colour));
    if (half !== null) {
      const halfAt = { ...at, xMm: numberXMm + 0.5 * cellWidthMm };
      const text = drawText(half, { ...halfAt, ...quiet, roomMm: 0.24 * cellWidthMm }, place.report);
      items.push(...text, ...drawTriangle(text, below, quiet.colour));
    }
    return items;
  });
}

/** The small triangle after a number, pointing to the film's end: its line is wide enough to fill it. */
function drawTriangle(
  number: readonly DisplayItem[],
  { baselineMm, sizeMm }: EdgeType,
  colour: string,
): DisplayItem[] {
  return number.flatMap((item): DisplayItem[] => {
    if (item.kind !== 'text') return [];
    const x = item.xMm + item.widthMm + sizeMm * 0.25;
    const tall = CAPITAL_EM * sizeMm * 0.66;
    const y = baselineMm - (CAPITAL_EM * sizeMm) / 2;
    return [
      {
        kind: 'line',
        points: [
          [x + tall * 0.2, y - tall * 0.22],
          [x + tall * 0.55, y],
          [x + tall * 0.2, y + tall * 0.22],
        ],
        closed: true,
        cap: 'butt',
        widthMm: tall * 0.4,
        colour,
      },
    ];
  });
}

/** The number where the film's edge is cut away: on a small plate in the lower left corner of the picture. */
function drawGapLabel(picture: PlacedPicture, place: StripPlace): DisplayItem[] {
  return drawPlate(picture.frame.label, picture, 'left', 'bold', place);
}

/** Words on a plate in a lower corner of the picture. */
function drawPlate(
  text: string,
  picture: PlacedPicture,
  corner: 'left' | 'right',
  weight: 'regular' | 'bold',
  { spec, scale, report }: StripPlace,
): DisplayItem[] {
  const inkSaving = spec.look === 'ink-saving';
  const sizeMm = REMARK_TYPE_MM * scale;
  const padMm = 0.6 * scale;
  const heightMm = CAPITAL_EM * sizeMm + 2 * padMm;
  const bottomMm = picture.yMm + picture.heightMm;
  const words = drawText(
    text,
    {
      xMm: corner === 'left' ? picture.xMm + padMm : picture.xMm + picture.widthMm - padMm,
      yMm: bottomMm - padMm,
      sizeMm,
      weight,
      colour: inkSaving ? INK : EDGE_PRINT,
      roomMm: picture.widthMm - 2 * padMm,
      align: corner === 'left' ? 'start' : 'end',
    },
    report,
  );
  return words.flatMap((line): DisplayItem[] => [
    {
      kind: 'rect',
      xMm: line.xMm - padMm,
      yMm: bottomMm - heightMm,
      widthMm: line.widthMm + 2 * padMm,
      heightMm,
      radiusMm: 0,
      fill: inkSaving ? PAPER : FILM,
    },
    line,
  ]);
}

function drawNotes(picture: PlacedPicture, place: StripPlace): DisplayItem[] {
  const { frame, xMm, widthMm } = picture;
  const { band, scale, report, yMm } = place;
  const remark =
    frame.remark !== null && frame.scan ? drawPlate(frame.remark, picture, 'right', 'regular', place) : [];
  if (band.captionBandMm === 0 || frame.caption === null) return remark;
  const sizeMm = CAPTION_TYPE_MM * scale;
  const bandTop = yMm + (band.heightMm - band.captionBandMm) * scale;
  const caption = drawText(
    frame.caption,
    {
      xMm,
      yMm: bandTop + (band.captionBandMm * scale + CAPITAL_EM * sizeMm) / 2,
      sizeMm,
      weight: 'regular',
      colour: INK,
      roomMm: widthMm,
    },
    report,
  );
  return [...remark, ...caption];
}
