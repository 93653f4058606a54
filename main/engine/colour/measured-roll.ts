import type { BaseDensity } from '../../../shared/domain/colour/base-fog.ts';
import type { Balance } from '../../../shared/domain/colour/balance.ts';
import type { FrameCast } from '../../../shared/domain/colour/cast-frame.ts';
import type { RollCast } from '../../../shared/domain/colour/cast-roll.ts';
import type { RollRendering } from '../../../shared/domain/colour/look.ts';
import type { PolarityEvidence, RollKind } from '../../../shared/domain/colour/polarity.ts';

/** What one frame of a roll says. */
export interface MeasuredFrame {
  readonly frameId: number;
  readonly label: string;
  readonly evidence: PolarityEvidence;
  /** Under the balance that it was measured under, which hides an error of the whole roll. */
  readonly cast: FrameCast;
}

/** What was measured on a roll, kept until a scan or the user's word about it changes. */
export interface MeasuredRoll {
  readonly kind: RollKind;
  /** How its scans are turned into positives, before anything the user adjusts. */
  readonly rendering: RollRendering;
  /** What colour negatives were measured under: usual slopes, gains about the roll's own greys. Else null. */
  readonly measuredUnder: Balance | null;
  /** Density of the film base; null for positives. */
  readonly base: BaseDensity | null;
  readonly frames: readonly MeasuredFrame[];
  /** The roll's cast: as shown for positives, under the usual balance for negatives. */
  readonly cast: RollCast | null;
}

/** Raised when what is measured changes, so that old measures are made again. */
export const MEASURE_VERSION = 6;

/** What was kept of a roll; null for what an older program kept in another form. */
export function readMeasured(json: string): MeasuredRoll | null {
  // Written by this very program from the very type; an older form lacks what it was measured under.
  const kept: MeasuredRoll = JSON.parse(json);
  return 'measuredUnder' in kept ? kept : null;
}
