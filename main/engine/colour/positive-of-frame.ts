import { join } from 'node:path';
import { appError } from '../../../shared/api/errors.ts';
import { makePositiveLook } from '../../../shared/domain/colour/look.ts';
import type { RollKind } from '../../../shared/domain/colour/polarity.ts';
import type { Archive } from '../archive/archive.ts';
import type { FrameSource } from './frame-source.ts';
import { measureRoll } from './measure-roll.ts';
import type { Positive } from './write-positive.ts';

/** What is to be written of a frame of the archive. @throws {AppError} scan_not_found, cancelled */
export async function positiveOfFrame(
  archive: Archive,
  source: FrameSource,
  signal: AbortSignal,
): Promise<{ readonly positive: Positive; readonly kind: RollKind }> {
  const { scan, rollId, roll, label, adjust } = source;
  if (scan === null) throw appError('scan_not_found', { name: `frame ${label} of ${roll}` });
  const { kind, rendering } = await measureRoll(archive, rollId, signal);
  return {
    kind,
    positive: { ...scan, scan: join(scan.root, scan.path), look: makePositiveLook(rendering, adjust) },
  };
}
