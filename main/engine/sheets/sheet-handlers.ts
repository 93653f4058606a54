import { resolve } from 'node:path';
import type { Output } from '../../../shared/api/contract.ts';
import { appError } from '../../../shared/api/errors.ts';
import { findSheetPaper, layOutSheet } from '../../../shared/sheet/layout.ts';
import { PAPERS } from '../../../shared/sheet/paper.ts';
import type { SheetLayout } from '../../../shared/sheet/sheet-layout.ts';
import type { SheetSpec } from '../../../shared/sheet/sheet-spec.ts';
import type { Archive } from '../archive/archive.ts';
import { startMeasuring, waitForMeasuring } from '../colour/measure-rolls.ts';
import { shownPreview } from '../colour/shown-preview.ts';
import { findFrames } from '../film/frame-rows.ts';
import { requireRoll } from '../film/rolls.ts';
import type { HandlersOf } from '../handler.ts';
import { ASSETS } from '../files/assets.ts';
import { createFontShelf } from './font-file.ts';
import { planRoll } from './plan-rolls.ts';
import { findSheetFormat, writeSheet } from './write-sheet.ts';

/** The bundled faces, read when first needed and kept: they never change while the program runs. */
const SHELF = createFontShelf(new URL('fonts/', ASSETS));

type Summary = Omit<Output<'sheets.layOut'>, 'layout'>;

interface LaidOut {
  readonly layout: SheetLayout;
  readonly summary: Summary;
}

/** @throws {AppError} roll_not_found, sheet_empty, paper_not_found */
function layOut(archive: Archive, rollIds: readonly number[], spec: SheetSpec): LaidOut {
  const paper = findSheetPaper(spec);
  if (!paper) throw appError('paper_not_found', { name: spec.paperId });
  const pages = rollIds.flatMap((rollId) => planRoll(archive.db, rollId));
  const layout = layOutSheet({ pages }, spec);
  const first = layout.pages[0];
  const names = frameNames(archive, rollIds);
  return {
    layout,
    summary: {
      pages: layout.pages.length,
      scale: layout.scale,
      paper: { widthMm: (first ?? paper).widthMm, heightMm: (first ?? paper).heightMm },
      frames: layout.frames.map(({ key, page, ...box }) => ({
        frameId: Number(key),
        roll: names.get(key)?.roll ?? '',
        frame: names.get(key)?.label ?? '',
        page: page + 1,
        ...box,
      })),
      misfit: layout.misfit,
      missingGlyphs: [...layout.missingGlyphs],
      shortened: [...layout.shortened],
    },
  };
}

function frameNames(
  archive: Archive,
  rollIds: readonly number[],
): Map<string, { roll: string; label: string }> {
  const names = new Map<string, { roll: string; label: string }>();
  for (const rollId of rollIds) {
    const roll = requireRoll(archive.db, rollId).number;
    for (const frame of findFrames(archive.db, 'frame.roll_id = :rollId', { rollId })) {
      names.set(String(frame.id), { roll, label: frame.label });
    }
  }
  return names;
}

export const SHEET_HANDLERS: HandlersOf<'sheets.papers' | 'sheets.layOut' | 'sheets.write'> = {
  'sheets.papers': () => [...PAPERS],

  'sheets.layOut': (archive, { rollIds, spec }, { jobs }) => {
    // What is not measured yet is shown as scanned until it is; the window asks again when the job is done.
    startMeasuring(archive, jobs, rollIds);
    const { layout, summary } = layOut(archive, rollIds, spec);
    return { ...summary, layout };
  },

  'sheets.write': async (archive, { rollIds, spec, file, overwrite, ppi }, { signal, jobs }) => {
    const format = findSheetFormat(file);
    if (!format) {
      throw appError('value_not_valid', {
        field: 'file',
        value: file,
        reason: 'it must end in .pdf, .png or .tif',
      });
    }
    const { layout: planned, summary } = layOut(archive, rollIds, spec);
    if (planned.misfit) return { ...summary, files: [], unreadable: [] };
    await waitForMeasuring(archive, jobs, rollIds, signal);
    // Laid out anew: what has been measured is shown by other pictures.
    const { layout } = layOut(archive, rollIds, spec);
    const title = spec.title ?? rollIds.map((id) => requireRoll(archive.db, id).number).join(', ');
    const written = await writeSheet(
      layout,
      { path: resolve(file), format, ppi, overwrite, title, madeAt: archive.now() },
      {
        pictureFile: (id) => shownPreview(archive, id, 'large'),
        shelf: SHELF,
        signal,
      },
    );
    const unreadable = written.unreadable.map(({ frameKey, reason }) => ({
      frameId: Number(frameKey),
      reason,
    }));
    return { ...summary, files: [...written.files], unreadable };
  },
};
