import { createHash } from 'node:crypto';
import { z } from 'zod';
import { castOfFrame, type FrameCast } from '../../../shared/domain/colour/cast-frame.ts';
import { castOfRoll, type RollCast } from '../../../shared/domain/colour/cast-roll.ts';
import { applyLook, makePositiveLook, UNADJUSTED } from '../../../shared/domain/colour/look.ts';
import { lightOf } from '../../../shared/domain/colour/picture.ts';
import type { RollKind } from '../../../shared/domain/colour/polarity.ts';
import type { Archive } from '../archive/archive.ts';
import { command, query, type ReadableDb } from '../db/query.ts';
import { ensurePreview } from '../scans/ensure-preview.ts';
import { sharp } from '../scans/image-library.ts';
import { pictureId } from '../scans/picture-id.ts';
import { keepPreview, previewPath } from '../scans/preview-store.ts';
import { loadPicture } from './load-picture.ts';
import { type RollIntent, renderRoll } from './render-roll.ts';

/** What was measured on a roll, kept until a scan or the user's word about it changes. */
export interface MeasuredRoll {
  readonly kind: RollKind;
  readonly frames: readonly { readonly frameId: number; readonly label: string; readonly cast: FrameCast }[];
  readonly cast: RollCast | null;
}

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

/** Raised when what is measured changes, so that old measures are made again. */
const MEASURE_VERSION = 1;

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

/**
 * Measures a roll: how its scans are meant, the cast of each frame, the cast of the roll; negatives get previews as
 * positives by the way. What was measured before and still holds is given back at once.
 */
export async function measureRoll(
  archive: Archive,
  rollId: number,
  signal: AbortSignal,
): Promise<MeasuredRoll> {
  const { db } = archive;
  const sources = sourcesOf(db, rollId);
  const intent = intentOf(db, rollId);
  const key = createHash('sha256')
    .update(JSON.stringify([MEASURE_VERSION, intent, sources]))
    .digest('hex')
    .slice(0, 16);
  const kept = query(
    db,
    keptRow,
    'SELECT key, measured_json AS measured FROM roll_colour WHERE roll_id = :rollId',
  ).find({
    rollId,
  });
  // Written by this very program from the very type; a reading of another form has another key.
  if (kept?.key === key) return JSON.parse(kept.measured);
  const measured = await measure(archive, sources, intent, key, signal);
  command(
    db,
    `INSERT INTO roll_colour (roll_id, key, shown, measured_json) VALUES (:rollId, :key, :shown, :measured)
     ON CONFLICT (roll_id) DO UPDATE SET key = excluded.key, shown = excluded.shown, measured_json = excluded.measured_json`,
  )({
    rollId,
    key,
    shown: measured.kind.polarity === 'negative' ? key : null,
    measured: JSON.stringify(measured),
  });
  return measured;
}

async function measure(
  archive: Archive,
  sources: readonly Source[],
  intent: RollIntent,
  key: string,
  signal: AbortSignal,
): Promise<MeasuredRoll> {
  const loaded = [];
  for (const source of sources) {
    signal.throwIfAborted();
    const file = await ensurePreview(archive, pictureId(source.sha256, source.page), 'large');
    if (file !== null) loaded.push({ source, file, picture: await loadPicture(file) });
  }
  const { kind, rendering, measuring } = renderRoll(
    loaded.map((each) => each.picture),
    intent,
  );
  const look = makePositiveLook(measuring, UNADJUSTED);
  const frames = loaded.map(({ source, picture }) => ({
    frameId: source.frameId,
    label: source.label,
    cast: castOfFrame(
      lightOf(measuring.kind === 'as-scanned' ? picture : applyLook(picture, look)),
      kind.polarity === 'unknown' ? 'unknown' : 'positive',
    ),
  }));
  if (rendering.kind !== 'as-scanned') {
    const shown = makePositiveLook(rendering, UNADJUSTED);
    for (const { source, file } of loaded) {
      signal.throwIfAborted();
      for (const [size, longSide] of [
        ['large', 1600],
        ['small', 256],
      ] as const) {
        const positive = applyLook(await loadPicture(file, longSide), shown);
        const { width, height } = positive;
        const jpeg = await sharp(Buffer.from(positive.samples.buffer), {
          raw: { width, height, channels: 3 },
        })
          .jpeg({ quality: 86 })
          .toBuffer();
        keepPreview(previewPath(archive.folder, source.sha256, source.page, size, key), jpeg);
      }
    }
  }
  return {
    kind,
    frames,
    cast: kind.colour === 'monochrome' ? null : castOfRoll(frames.map((frame) => frame.cast)),
  };
}
