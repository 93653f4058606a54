import type { Frame } from '../../shared/api/methods/film-methods.ts';
import type { ProposedFile, ScanProposal } from '../../shared/api/methods/scan-methods.ts';

/** The frames of a roll that a scan is tied to, as it is recorded. */
function recordedFrames(scanId: number | null, known: readonly Frame[]): ProposedFile['frames'] {
  if (scanId === null) return [];
  return known.flatMap(({ label, versions }) =>
    versions
      .filter((version) => version.scanId === scanId)
      .map(({ page, region, pictureId }) => ({ label, page, region, pictureId })),
  );
}

/**
 * A proposal in which files that are tied to the roll already stay with the frames they were tied to, whatever their
 * names say: what was recorded, by hand perhaps, is not proposed anew.
 */
export function keepRecorded(proposal: ScanProposal, known: readonly Frame[]): ScanProposal {
  const files = proposal.files.map((file): ProposedFile => {
    const frames = recordedFrames(file.scanId, known);
    if (file.state === 'failed' || frames.length === 0 || frames.length < file.frames.length) return file;
    return { ...file, frames, state: 'skipped', confidence: 1 };
  });
  return { ...proposal, files };
}

/** Whether every one of these files is tied to all the frames named. */
export function areRecorded(
  files: readonly { readonly scanId: number; readonly labels: readonly string[] }[],
  known: readonly Frame[],
): boolean {
  return files.every(({ scanId, labels }) => {
    const tied = new Set(recordedFrames(scanId, known).map(({ label }) => label));
    return labels.every((label) => tied.has(label));
  });
}
