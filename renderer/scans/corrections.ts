import type { ProposedFile, ScanProposal } from '../../shared/api/methods/scan-methods.ts';
import { accept, type Checked } from '../../shared/domain/checked.ts';
import { normalizeFrameLabel } from '../../shared/domain/frame/frame-label.ts';
import {
  leaveOut,
  relabelFrom,
  reverseMapping,
  shiftMapping,
  skipFile,
  type AdjustReason,
} from '../../shared/domain/naming/adjust-mapping.ts';
import {
  WHOLE,
  withOrder,
  type MappedFile,
  type ScanMapping,
} from '../../shared/domain/naming/scan-mapping.ts';

/** Something the user put right in a proposal. */
export type Correction =
  | { readonly kind: 'shift'; readonly steps: number }
  | { readonly kind: 'reverse' }
  /** This file is no frame of the roll; those behind it move up. */
  | { readonly kind: 'skip'; readonly path: string }
  /** This file is no frame of the roll; the others stay. */
  | { readonly kind: 'leave out'; readonly path: string }
  /** From this file on, along the film, nothing is of this roll. */
  | { readonly kind: 'end before'; readonly path: string }
  /** This file shows that frame, and those behind it follow. */
  | { readonly kind: 'count from'; readonly path: string; readonly label: string }
  /** A file that was left out shows that frame. */
  | { readonly kind: 'place'; readonly path: string; readonly label: string };

/** A proposal as corrected. */
export interface CorrectedProposal {
  readonly files: readonly ProposedFile[];
  readonly questions: ScanProposal['questions'];
  /** Paths of the files that a correction has touched. */
  readonly byHand: ReadonlySet<string>;
}

/** Whether a file can still be tied by this proposal: whole, and not tied to its frame already. */
export function isOpen(file: ProposedFile): boolean {
  return file.state === 'done' || (file.state === 'skipped' && file.frames.length === 0);
}

/**
 * A proposal with all corrections made, one after the other. Files that are tied already stay as they are, and so do
 * those that cannot be used.
 */
export function applyCorrections(
  proposal: ScanProposal,
  corrections: readonly Correction[],
): Checked<CorrectedProposal, AdjustReason> {
  const before = new Map(proposal.files.map((file) => [file.path, file]));
  let mapping: ScanMapping = {
    files: withOrder(proposal.files.filter(isOpen).map(mappedFile)),
    questions: [],
    notes: [],
  };
  for (const correction of corrections) {
    const corrected = applyCorrection(mapping, correction);
    if (!corrected.ok) return corrected;
    mapping = corrected.value;
  }
  const after = new Map(mapping.files.map((file) => [file.path, file]));
  const byHand = new Set<string>();
  const files = proposal.files.map((file) => {
    const mapped = after.get(file.path);
    if (!mapped || mapped.reason === file.reason) return file;
    byHand.add(file.path);
    return {
      ...file,
      frames: mapped.frames.map((frame) => ({
        ...frame,
        region: { ...frame.region },
        pictureId: file.frames.find(({ page }) => page === frame.page)?.pictureId ?? file.pictureId,
      })),
      reason: mapped.reason,
      confidence: mapped.confidence,
      state: mapped.frames.length > 0 ? ('done' as const) : ('skipped' as const),
    };
  });
  const questions = proposal.questions.filter(({ paths }) =>
    paths.some((path) => before.has(path) && !byHand.has(path)),
  );
  return accept({ files, questions, byHand });
}

function mappedFile(file: ProposedFile): MappedFile {
  // The kind of version and the roll named play no part in corrections; the file keeps its own.
  const { path, frames, order, reason, confidence } = file;
  return { path, frames, order, version: 'scan', roll: null, reason, confidence, needsAnswer: false };
}

function applyCorrection(mapping: ScanMapping, correction: Correction): Checked<ScanMapping, AdjustReason> {
  switch (correction.kind) {
    case 'shift':
      return shiftMapping(mapping, correction.steps);
    case 'reverse':
      return accept(reverseMapping(mapping));
    case 'skip':
      return skipFile(mapping, correction.path);
    case 'leave out':
      return accept(leaveOut(mapping, correction.path));
    case 'end before':
      return accept(endBefore(mapping, correction.path));
    case 'count from':
      return relabelFrom(mapping, correction.path, correction.label);
    case 'place':
      return placeFile(mapping, correction.path, correction.label);
  }
}

function endBefore(mapping: ScanMapping, path: string): ScanMapping {
  const order = mapping.files.find((file) => file.path === path)?.order ?? 0;
  const rest = mapping.files.filter((file) => order > 0 && file.order >= order);
  return rest.reduce((left, file) => leaveOut(left, file.path), mapping);
}

function placeFile(mapping: ScanMapping, path: string, text: string): Checked<ScanMapping, AdjustReason> {
  const label = normalizeFrameLabel(text);
  if (!label.ok) return label;
  const files = mapping.files.map((file) =>
    file.path === path
      ? {
          ...file,
          frames: [{ label: label.value, page: 0, region: WHOLE }],
          reason: `${file.reason} Said to be ${label.value} by hand.`,
          confidence: 1,
        }
      : file,
  );
  return accept({ ...mapping, files: withOrder(files) });
}
