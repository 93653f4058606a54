import { z } from 'zod';
import { appError } from '../../../shared/api/errors.ts';
import { lightAt } from '../../../shared/domain/colour/light-at.ts';
import { type Adjust, greyFromClick, isUnadjusted } from '../../../shared/domain/colour/look.ts';
import { readingOfFrame, type FrameReading } from '../../../shared/domain/colour/polarity.ts';
import type { Archive } from '../archive/archive.ts';
import { command, query } from '../db/query.ts';
import { countRow } from '../db/rows.ts';
import { requireRoll } from '../film/rolls.ts';
import type { HandlersOf } from '../handler.ts';
import { ensurePreview } from '../scans/ensure-preview.ts';
import { pictureId } from '../scans/picture-id.ts';
import { requireSource } from './frame-source.ts';
import { loadPicture } from './load-picture.ts';
import { lookFromColumn } from './looks.ts';
import { measureRoll } from './measure-roll.ts';
import type { MeasuredFrame } from './measured-roll.ts';

const meantRow = z.object({
  polarity: z.enum(['auto', 'negative', 'positive']),
  tone: z.enum(['auto', 'colour', 'monochrome']),
});

/** What the user said of how a roll's scans are to be read. */
function meantOf(archive: Archive, rollId: number): z.output<typeof meantRow> {
  const sql = 'SELECT scan_polarity AS polarity, scan_tone AS tone FROM roll WHERE id = :rollId';
  const found = query(archive.db, meantRow, sql).find({ rollId });
  if (!found) throw appError('roll_not_found', { name: String(rollId) });
  return found;
}

function countReadings(frames: readonly MeasuredFrame[]): Record<FrameReading, number> {
  const counts = { negative: 0, positive: 0, undecided: 0, blank: 0 };
  for (const { evidence } of frames) counts[readingOfFrame(evidence)] += 1;
  return counts;
}

/** A look as it is kept. */
function toColumn(adjust: Adjust | null): string | null {
  return adjust === null ? null : JSON.stringify(adjust);
}

/** The preview in which a grey is picked, px: the large one. */
const GREY_LONG_SIDE = 1600;

export const LOOK_HANDLERS: HandlersOf<
  'looks.ofFrame' | 'looks.ofFrames' | 'looks.ofRoll' | 'looks.greyAt' | 'looks.read'
> = {
  'looks.ofFrame': async (archive, { frameId }, { signal }) => {
    const { rollId, scan, rollLook, frameLook } = requireSource(archive.db, frameId);
    const { kind, rendering, frames } = await measureRoll(archive, rollId, signal);
    const own = frames.find((frame) => frame.frameId === frameId);
    const looks = query(
      archive.db,
      countRow,
      'SELECT count(*) AS count FROM frame WHERE roll_id = :rollId AND look_json IS NOT NULL',
    ).find({ rollId });
    return {
      rollId,
      scanned: scan === null ? null : pictureId(scan.sha256, scan.page),
      rendering,
      roll: lookFromColumn(rollLook),
      frame: lookFromColumn(frameLook),
      ownLooks: looks?.count ?? 0,
      reading: {
        polarity: kind.polarity,
        colour: kind.colour,
        confidence: kind.confidence,
        meant: meantOf(archive, rollId),
        frames: countReadings(frames),
        own: own === undefined ? null : readingOfFrame(own.evidence),
      },
    };
  },

  'looks.ofFrames': (archive, { frameIds, adjust }) => {
    const sources = frameIds.map((id) => requireSource(archive.db, id));
    const what = sources.length === 1 ? `frame ${sources[0]?.label ?? ''}` : `${sources.length} frames`;
    archive.undo.record(`Adjust ${what}`, () => {
      const set = command(archive.db, 'UPDATE frame SET look_json = :look WHERE id = :id');
      for (const { frameId } of sources) set({ id: frameId, look: toColumn(adjust) });
    });
    return {};
  },

  'looks.ofRoll': (archive, { rollId, adjust, follow }) => {
    const { number } = requireRoll(archive.db, rollId);
    // On a roll, changing nothing and having set nothing are one.
    const look = adjust !== null && isUnadjusted(adjust) ? null : adjust;
    archive.undo.record(`Adjust roll ${number}`, () => {
      command(
        archive.db,
        'UPDATE roll SET look_json = :look WHERE id = :rollId',
      )({ rollId, look: toColumn(look) });
      const follows = command(
        archive.db,
        'UPDATE frame SET look_json = NULL WHERE id = :id AND roll_id = :rollId',
      );
      for (const id of follow) follows({ id, rollId });
    });
    return {};
  },

  'looks.greyAt': async (archive, { frameId, x, y }, { signal }) => {
    const { rollId, roll, label, scan } = requireSource(archive.db, frameId);
    const { rendering } = await measureRoll(archive, rollId, signal);
    const refuse = (reason: string) =>
      appError('value_not_valid', { field: 'grey', value: `frame ${label} of ${roll}`, reason });
    if (scan === null) throw refuse('it has no scan');
    if (rendering.kind === 'monochrome-negative') throw refuse('black-and-white has no colour to balance');
    const file = await ensurePreview(archive, pictureId(scan.sha256, scan.page), 'large');
    if (file === null) throw refuse('its scan cannot be reached');
    const picture = await loadPicture(file, GREY_LONG_SIDE);
    return { grey: greyFromClick(rendering, lightAt(picture, x, y)) };
  },

  'looks.read': (archive, { rollId, polarity, tone }, { jobs }) => {
    const { number } = requireRoll(archive.db, rollId);
    archive.undo.record(`Read roll ${number} as ${polarity === 'auto' ? 'its scans say' : polarity}`, () => {
      command(
        archive.db,
        'UPDATE roll SET scan_polarity = :polarity, scan_tone = :tone WHERE id = :rollId',
      )({ rollId, polarity, tone });
    });
    return jobs.start('measure', `Measuring colour of ${number}`, { rollIds: [rollId] });
  },
};
