import { existsSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { appError } from '../../../shared/api/errors.ts';
import { makePositiveLook, type RollRendering, UNADJUSTED } from '../../../shared/domain/colour/look.ts';
import type { RollKind } from '../../../shared/domain/colour/polarity.ts';
import type { Archive } from '../archive/archive.ts';
import type { HandlersOf } from '../handler.ts';
import { fileNamesOf } from './export-positives.ts';
import { findFrameOfFile, requireSource, sourcesOfFrames } from './frame-source.ts';
import { loadPicture } from './load-picture.ts';
import { positiveOfFrame } from './positive-of-frame.ts';
import { readPictureOfFile } from './picture-of-file.ts';
import { renderRoll } from './render-roll.ts';
import { findPositiveFormat, type Positive, writePositive } from './write-positive.ts';

/** What is to be written of a file that the archive does not know: read on its own. */
async function positiveOfFile(
  archive: Archive,
  file: string,
): Promise<{ readonly positive: Positive; readonly kind: RollKind }> {
  const { path, page, preview, linear } = await readPictureOfFile(archive, file);
  const { kind, rendering }: { kind: RollKind; rendering: RollRendering } = renderRoll(
    [await loadPicture(preview)],
    {
      polarity: 'auto',
      tone: 'auto',
    },
  );
  const look = makePositiveLook(rendering, UNADJUSTED);
  const region = { x: 0, y: 0, width: 1, height: 1 };
  return { kind, positive: { scan: path, page, linear, look, region, turned: 0, mirrored: false } };
}

function positiveFor(
  archive: Archive,
  { file, frameId }: { readonly file: string | null; readonly frameId: number | null },
  signal: AbortSignal,
) {
  const known = frameId ?? (file === null ? null : findFrameOfFile(archive.db, resolve(file)));
  if (known !== null) return positiveOfFrame(archive, requireSource(archive.db, known), signal);
  if (file !== null) return positiveOfFile(archive, file);
  throw appError('value_not_valid', {
    field: 'file',
    value: 'nothing',
    reason: 'a file or a frame is needed',
  });
}

export const POSITIVE_HANDLERS: HandlersOf<'positives.write' | 'positives.plan' | 'positives.export'> = {
  'positives.write': async (archive, { file, frameId, out, bits, longSide, overwrite }, { signal }) => {
    const path = resolve(out);
    const format = findPositiveFormat(path);
    if (format === null) {
      const reason = 'it must end in .png, .tif or .jpg';
      throw appError('value_not_valid', { field: 'out', value: out, reason });
    }
    const { positive, kind } = await positiveFor(archive, { file, frameId }, signal);
    const written = await writePositive(positive, { path, format, bits, longSide, overwrite }, signal);
    return {
      out: written.path,
      width: written.width,
      height: written.height,
      bits: written.bits,
      polarity: kind.polarity,
      colour: kind.colour,
      confidence: kind.confidence,
    };
  },

  'positives.plan': (archive, { frameIds, folder, format }) => {
    const sources = sourcesOfFrames(archive.db, frameIds);
    const real = resolve(folder);
    const names = fileNamesOf(
      sources.filter(({ scan }) => scan !== null),
      format,
    );
    return {
      folder: real,
      files: [...names].map(([frameId, name]) => ({ frameId, name, exists: existsSync(join(real, name)) })),
      withoutScan: sources.length - names.size,
    };
  },

  'positives.export': (archive, { frameIds, folder, ...how }, { jobs }) => {
    const sources = sourcesOfFrames(archive.db, frameIds);
    const rolls = [...new Set(sources.map(({ roll }) => roll))];
    const title = rolls.length === 1 ? `Writing pictures of ${rolls[0] ?? ''}` : 'Writing pictures';
    return jobs.start('export', title, { frameIds, folder: resolve(folder), ...how });
  },
};
