import type { Input } from '../../../shared/api/contract.ts';
import type { ProposedFile, ScanProposal } from '../../../shared/api/methods/scan-methods.ts';
import { fillGaps } from '../../../shared/domain/naming/film-gaps.ts';
import { mapScans } from '../../../shared/domain/naming/map-scans.ts';
import type { MappedFile } from '../../../shared/domain/naming/scan-mapping.ts';
import type { Archive } from '../archive/archive.ts';
import { labelsOfRoll } from '../film/frames.ts';
import { requireRoll } from '../film/rolls.ts';
import { type FolderFile, listFolder } from './folder-files.ts';
import { pictureId } from './picture-id.ts';

/**
 * How long after its last change an unfinished file may still be being written. Our choice: a slow scanner takes
 * minutes for a frame.
 */
const STILL_WRITING_MS = 10 * 60 * 1000;

/**
 * Which file of a folder becomes which frame of a roll, why, and how sure that is. Nothing is recorded.
 * @throws {AppError} folder_missing, folder_unreadable, roll_not_found
 */
export async function proposeScans(
  archive: Archive,
  { folder, rollId, options }: Input<'scans.propose'>,
  signal: AbortSignal,
): Promise<ScanProposal> {
  const roll = requireRoll(archive.db, rollId);
  const listing = await listFolder(archive, folder, signal);
  const usable = listing.files.filter((file) => file.shows.length > 0 && !isWaiting(archive, file));
  const mapping = mapScans({
    files: usable.map((file) => ({
      path: file.path,
      pages: file.shows.length,
      ...(file.shows[0] ? { width: file.shows[0].width, height: file.shows[0].height } : {}),
      ...(file.scannedAt === null ? {} : { scannedAt: file.scannedAt }),
    })),
    roll: {
      number: roll.number,
      filmFormat: roll.filmFormat,
      frameFormat: roll.frameFormat,
      exposures: roll.exposures,
      knownLabels: labelsOfRoll(archive.db, rollId).map((frame) => frame.label),
    },
    options,
  });
  const known = labelsOfRoll(archive.db, rollId).map((frame) => frame.label);
  const along = fillGaps([
    ...known,
    ...mapping.files.flatMap((file) => file.frames.map((frame) => frame.label)),
  ]);
  // The place along the film as it will be recorded, frames without a scan counted.
  const placed = mapping.files.map((file) => ({
    ...file,
    order: along.indexOf(file.frames[0]?.label ?? '') + 1,
  }));
  const mapped = new Map(placed.map((file) => [file.path, file]));
  return {
    folder: listing.folder,
    files: listing.files.map((file) => proposedFile(archive, roll.number, file, mapped.get(file.path))),
    questions: mapping.questions.map((question) => ({
      kind: question.kind,
      text: question.text,
      paths: [...question.paths],
      choices: question.choices.map(({ text, options: choice }) => ({
        text,
        options: {
          reverse: choice.reverse ?? null,
          firstLabel: choice.firstLabel ?? null,
          skip: [...(choice.skip ?? [])],
        },
      })),
    })),
    notes: mapping.notes.map((note) => note.text),
    litter: [...listing.litter],
  };
}

/** Whether a file looks as if it were still being written: it waits, and is read when it rests. */
function isWaiting(archive: Archive, file: FolderFile): boolean {
  return file.state === 'unfinished' && archive.now().getTime() - file.modifiedMs < STILL_WRITING_MS;
}

function proposedFile(
  archive: Archive,
  roll: string,
  file: FolderFile,
  mapped: MappedFile | undefined,
): ProposedFile {
  const first = file.shows[0];
  const base = {
    path: file.path,
    scanId: file.scanId,
    pictureId: file.sha256 === null || !first ? null : pictureId(file.sha256, first.index),
    code: file.code,
    remark: file.remark,
  };
  if (!mapped) {
    const state = isWaiting(archive, file) ? 'waiting' : 'failed';
    return {
      ...base,
      frames: [],
      order: 0,
      version: 'scan',
      reason: file.remark ?? '',
      confidence: 0,
      state,
    };
  }
  return {
    ...base,
    frames: mapped.frames.map((frame) => ({
      label: frame.label,
      page: file.shows[frame.page]?.index ?? frame.page,
      region: { ...frame.region },
      pictureId:
        file.sha256 === null ? null : pictureId(file.sha256, file.shows[frame.page]?.index ?? frame.page),
    })),
    order: mapped.order,
    version: mapped.version,
    reason: mapped.reason,
    confidence: mapped.confidence,
    state: stateOf(roll, file, mapped),
  };
}

/** `done`: it will be, or is, tied; `skipped`: it is no frame, or tied so already; `failed`: it is not whole. */
function stateOf(roll: string, file: FolderFile, mapped: MappedFile): ProposedFile['state'] {
  if (file.state !== 'complete') return 'failed';
  if (mapped.frames.length === 0) return 'skipped';
  const tied = mapped.frames.every((frame) =>
    file.frames.some((known) => known.roll === roll && known.label === frame.label),
  );
  return tied ? 'skipped' : 'done';
}
