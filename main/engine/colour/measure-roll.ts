import { z } from 'zod';
import { appError } from '../../../shared/api/errors.ts';
import { USUAL_BALANCE } from '../../../shared/domain/colour/balance.ts';
import { castOfFrame, type FrameCast, type ShownAs } from '../../../shared/domain/colour/cast-frame.ts';
import { castOfRoll } from '../../../shared/domain/colour/cast-roll.ts';
import { densityOfBase } from '../../../shared/domain/colour/base-fog.ts';
import {
  applyLook,
  makePositiveLook,
  type RollRendering,
  UNADJUSTED,
} from '../../../shared/domain/colour/look.ts';
import { lightOf, type Picture } from '../../../shared/domain/colour/picture.ts';
import type { Archive } from '../archive/archive.ts';
import { command, query, type ReadableDb } from '../db/query.ts';
import { ensurePreview } from '../scans/ensure-preview.ts';
import { pictureId } from '../scans/picture-id.ts';
import { castsUnder } from './cast-under.ts';
import { loadDeep } from './load-deep.ts';
import { loadPicture } from './load-picture.ts';
import { nameOf } from './looks.ts';
import { measureNegatives } from './measure-frames.ts';
import { MEASURE_VERSION, readMeasured, type MeasuredRoll } from './measured-roll.ts';
import { renderRoll, type RollIntent } from './render-roll.ts';

const sourceRow = z.object({
  frameId: z.number(),
  label: z.string(),
  sha256: z.string(),
  page: z.number(),
});
type Source = z.output<typeof sourceRow>;

const intentRow = z.object({
  polarity: z.enum(['auto', 'negative', 'positive']),
  tone: z.enum(['auto', 'colour', 'monochrome']),
});
const keptRow = z.object({ key: z.string(), measured: z.string() });

function sourcesOf(db: ReadableDb, rollId: number): Source[] {
  return query(
    db,
    sourceRow,
    `SELECT frame.id AS frameId, frame.label, scan.sha256, frame_scan.page FROM frame
     JOIN frame_scan ON frame_scan.id = (SELECT id FROM frame_scan AS version WHERE version.frame_id = frame.id
       AND version.version <> 'infrared' ORDER BY version.best DESC, version.id LIMIT 1)
     JOIN scan ON scan.id = frame_scan.scan_id AND scan.state IN ('complete', 'damaged')
     WHERE frame.roll_id = :rollId ORDER BY frame.ordinal`,
  ).all({ rollId });
}

function intentOf(db: ReadableDb, rollId: number): RollIntent {
  const sql = 'SELECT scan_polarity AS polarity, scan_tone AS tone FROM roll WHERE id = :rollId';
  return query(db, intentRow, sql).find({ rollId }) ?? { polarity: 'auto', tone: 'auto' };
}

interface Wanted {
  readonly key: string;
  readonly sources: readonly Source[];
  readonly intent: RollIntent;
}

function wantedOf(db: ReadableDb, rollId: number): Wanted {
  const sources = sourcesOf(db, rollId);
  const intent = intentOf(db, rollId);
  return { key: nameOf([MEASURE_VERSION, intent, sources]), sources, intent };
}

function findKept(db: ReadableDb, rollId: number, key: string): MeasuredRoll | null {
  const sql = 'SELECT key, measured_json AS measured FROM roll_colour WHERE roll_id = :rollId';
  const kept = query(db, keptRow, sql).find({ rollId });
  return kept?.key === key ? readMeasured(kept.measured) : null;
}

/** How many frames of a roll have a scan to be measured. */
export function countSources(db: ReadableDb, rollId: number): number {
  return sourcesOf(db, rollId).length;
}

/** What was measured on a roll, where that still holds; null where it has to be measured. */
export function findMeasured(db: ReadableDb, rollId: number): MeasuredRoll | null {
  return findKept(db, rollId, wantedOf(db, rollId).key);
}

/**
 * Measures a roll: how its scans are meant, how they are shown, the cast of each frame and of the roll, its film base.
 * What was measured before and still holds is given back at once; what is being measured is waited for, not done twice.
 * `tellFrame` is called for every frame that is measured here.
 * @throws {AppError} cancelled
 */
export async function measureRoll(
  archive: Archive,
  rollId: number,
  signal: AbortSignal,
  tellFrame: () => void = () => {},
): Promise<MeasuredRoll> {
  const { db } = archive;
  const wanted = wantedOf(db, rollId);
  const kept = findKept(db, rollId, wanted.key);
  if (kept !== null) return kept;
  return archive.measuring.join(`${rollId} ${wanted.key}`, signal, async (stop) => {
    const measured = await measure(archive, wanted, stop, tellFrame);
    const { key } = wanted;
    command(
      db,
      `INSERT INTO roll_colour (roll_id, key, shown, measured_json)
       SELECT id, :key, :shown, :measured FROM roll WHERE id = :rollId
       ON CONFLICT (roll_id) DO UPDATE SET key = excluded.key, shown = excluded.shown, measured_json = excluded.measured_json`,
    )({
      rollId,
      key,
      shown: measured.rendering.kind === 'as-scanned' ? null : key,
      measured: JSON.stringify(measured),
    });
    return measured;
  });
}

async function measure(
  archive: Archive,
  { sources, intent }: Wanted,
  signal: AbortSignal,
  tellFrame: () => void,
): Promise<MeasuredRoll> {
  const loaded: { source: Source; picture: Picture }[] = [];
  for (const source of sources) {
    if (signal.aborted) throw appError('cancelled', {});
    const file = await ensurePreview(archive, pictureId(source.sha256, source.page), 'large');
    if (file !== null) loaded.push({ source, picture: await loadPicture(file) });
    tellFrame();
  }
  const { kind, evidence, ...seen } = renderRoll(
    loaded.map((each) => each.picture),
    intent,
  );
  const pictures: Picture[] = [];
  for (const { source, picture } of loaded) {
    if (signal.aborted) throw appError('cancelled', {});
    const deep = seen.plain === null ? null : await loadDeep(archive, source.sha256, source.page);
    pictures.push(deep ?? picture);
  }
  const tone = kind.colour === 'monochrome' ? 'monochrome' : 'colour';
  const { rendering, plain } =
    seen.plain === null ? seen : renderRoll(pictures, { polarity: 'negative', tone });
  const shownAs = kind.polarity === 'unknown' ? 'unknown' : 'positive';
  const negatives =
    plain === null || rendering.kind !== 'colour-negative'
      ? null
      : measureNegatives(pictures, rendering.base, plain);
  const casts = negatives?.casts ?? castsAsShown(pictures, rendering, shownAs);
  const frames = loaded.flatMap(({ source: { frameId, label } }, at) => {
    const own = evidence[at];
    const cast = casts[at];
    return own === undefined || cast === undefined ? [] : [{ frameId, label, evidence: own, cast }];
  });
  const measuredUnder = negatives?.balance ?? null;
  return {
    kind,
    rendering,
    measuredUnder,
    base: rendering.kind === 'as-scanned' ? null : densityOfBase(rendering.base),
    frames,
    cast:
      kind.colour === 'monochrome' ? null : castOfRoll(castsUnder({ measuredUnder, frames }, USUAL_BALANCE)),
  };
}

function castsAsShown(
  pictures: readonly Picture[],
  rendering: RollRendering,
  shownAs: ShownAs,
): readonly FrameCast[] {
  const look = makePositiveLook(rendering, UNADJUSTED);
  return pictures.map((picture) =>
    castOfFrame(lightOf(rendering.kind === 'as-scanned' ? picture : applyLook(picture, look)), shownAs),
  );
}
