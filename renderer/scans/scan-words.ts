import type { ProposedFile } from '../../shared/api/methods/scan-methods.ts';
import type { AdjustReason } from '../../shared/domain/naming/adjust-mapping.ts';
import { describeReason } from '../../shared/text/describe-reason.ts';
import type { Correction } from './corrections.ts';

/** The last part of a path, on any system. */
export function fileName(path: string): string {
  return path.split(/[/\\]/).findLast((part) => part !== '') ?? path;
}

/** How sure a proposal is, in a word. The steps are our choice; they are no probabilities. */
export function describeConfidence(confidence: number): string {
  if (confidence >= 0.85) return 'sure';
  if (confidence >= 0.65) return 'likely';
  return confidence >= 0.5 ? 'perhaps' : 'a guess';
}

/** Where a file stands in its line beside the film: `recorded`, `by hand`, `likely`. */
export function describeStanding(file: ProposedFile, byHand: boolean): string {
  if (file.state === 'skipped') return 'recorded';
  return byHand ? 'by hand' : describeConfidence(file.confidence);
}

/** A correction in words. */
export function describeCorrection(correction: Correction): string {
  switch (correction.kind) {
    case 'shift':
      return `Every frame moved ${correction.steps > 0 ? 'on' : 'back'} by ${Math.abs(correction.steps)}`;
    case 'reverse':
      return 'The roll turned round';
    case 'skip':
      return `${fileName(correction.path)} skipped, the rest moved up`;
    case 'leave out':
      return `${fileName(correction.path)} left out`;
    case 'end before':
      return `${fileName(correction.path)} and all behind it left out`;
    case 'count from':
      return `Counted from ${correction.label} at ${fileName(correction.path)}`;
    case 'place':
      return `${fileName(correction.path)} shows frame ${correction.label}`;
  }
}

/** Why a correction cannot be made. */
export function describeAdjustReason(reason: AdjustReason): string {
  if (reason === 'labels_end') return 'a frame would lie before 00 or beyond 999';
  if (reason === 'file_not_mapped') return 'this file shows no frame yet';
  return describeReason(reason);
}

/** `1 scan`, `12 scans`. */
export function count(many: number, one: string): string {
  return many === 1 ? `1 ${one}` : `${many} ${one}s`;
}
