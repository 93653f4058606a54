import { join } from 'node:path';
import { z } from 'zod';
import { appError, isAppError } from '../../../shared/api/errors.ts';
import { makeFolder } from '../files/make-folder.ts';
import { translateFileError } from '../files/file-error.ts';
import type { Work } from '../jobs/jobs.ts';
import { type FrameSource, sourcesOfFrames } from './frame-source.ts';
import { positiveOfFrame } from './positive-of-frame.ts';
import { writePositive, type PositiveFormat } from './write-positive.ts';

const jobInput = z.object({
  frameIds: z.array(z.number()),
  folder: z.string(),
  format: z.enum(['png', 'tiff', 'jpeg']),
  bits: z.union([z.literal(8), z.literal(16)]),
  longSide: z.number().nullable(),
  overwrite: z.boolean(),
});

const ENDINGS = { png: 'png', tiff: 'tif', jpeg: 'jpg' } as const;

/** Signs that no common file system takes in a name, and strokes. Source: Microsoft, Naming Files, Paths, Namespaces. */
// oxlint-disable-next-line no-control-regex
const NOT_IN_NAMES = /[\u0000-\u001f<>:"/\\|?*]/g;

/** The names of the files of frames, `2026-001_12A.png`, by frame id: every name once. */
export function fileNamesOf(
  sources: readonly Pick<FrameSource, 'frameId' | 'roll' | 'label'>[],
  format: PositiveFormat,
): Map<number, string> {
  const taken = new Set<string>();
  const names = new Map<number, string>();
  for (const { frameId, roll, label } of sources) {
    const stem = `${roll}_${label}`.replaceAll(NOT_IN_NAMES, '-');
    let name = `${stem}.${ENDINGS[format]}`;
    // Rolls may differ only by a sign that no file name takes.
    for (let again = 2; taken.has(name.toLowerCase()); again += 1)
      name = `${stem}-${again}.${ENDINGS[format]}`;
    taken.add(name.toLowerCase());
    names.set(frameId, name);
  }
  return names;
}

/** What became of a frame that was to be written. */
interface Outcome {
  readonly frameId: number;
  readonly name: string;
  readonly done: boolean;
  readonly code: string | null;
}

/** Writes frames as they are shown into a folder; one that cannot be written stops nothing, a full disk stops all. */
export const exportPositives: Work = async (archive, input, progress, signal) => {
  const { frameIds, folder, format, bits, longSide, overwrite } = jobInput.parse(input);
  const sources = sourcesOfFrames(archive.db, frameIds).filter(({ scan }) => scan !== null);
  const names = fileNamesOf(sources, format);
  progress.total(sources.length);
  try {
    makeFolder(folder);
  } catch (error) {
    throw translateFileError(error, folder, 'output');
  }
  const outcomes: Outcome[] = [];
  for (const source of sources) {
    if (signal.aborted) throw appError('cancelled', {});
    const { frameId } = source;
    const name = names.get(frameId) ?? '';
    try {
      const { positive } = await positiveOfFrame(archive, source, signal);
      await writePositive(positive, { path: join(folder, name), format, bits, longSide, overwrite }, signal);
      outcomes.push({ frameId, name, done: true, code: null });
    } catch (error) {
      if (!isAppError(error) || error.code === 'cancelled' || error.code === 'disk_full') throw error;
      outcomes.push({ frameId, name, done: false, code: error.code });
    }
    progress.step(outcomes.at(-1)?.done === false);
  }
  return { folder, files: outcomes };
};
