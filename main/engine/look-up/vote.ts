import type { Codebook } from '../../../shared/domain/look-up/codebook.ts';
import { VOTE_BITS } from '../../../shared/domain/look-up/encode.ts';
import { DESCRIPTOR_LENGTH, type Features } from '../../../shared/domain/look-up/features.ts';
import { variedCell, type Probes } from '../../../shared/domain/look-up/probes.ts';
import { variedAngle, type Variant } from '../../../shared/domain/look-up/variants.ts';
import type { Postings } from './postings.ts';
import { sixteenthOf } from './record.ts';

// Ours, chosen on the half of the labelled set that is for choosing.
const HITS_DAMPING = 8;
const TURNS = 16;
const TURN = 2 * Math.PI;

/** A picture of the archive with its votes, and the turn (radians) that most of them agree on. */
export interface Voted {
  readonly slot: number;
  readonly votes: number;
  readonly turn: number;
}

/**
 * The slots with most votes in one variant, most first, at most `most`. A vote counts for a turn of the whole
 * picture, in sixteenths: features that really are shared agree on it, chance ones do not.
 */
export function vote(
  codebook: Codebook,
  postings: Postings,
  { features, mixed, probes }: { features: Features; mixed: Float32Array; probes: Probes },
  variant: Variant,
  most: number,
): Voted[] {
  const cells = new Uint32Array(probes.reach);
  for (let i = 0; i < probes.count; i++) {
    const row = mixed.subarray(i * DESCRIPTOR_LENGTH, i * DESCRIPTOR_LENGTH + VOTE_BITS);
    for (let rank = 0; rank < probes.reach; rank++)
      cells[rank] = variedCell(probes.cells[i * probes.reach + rank] ?? 0, codebook.size, variant);
    const hits = postings.scan(cells, row, sixteenthOf(variedAngle(features.angle[i] ?? 0, variant)));
    postings.tally(1 / Math.sqrt(1 + hits / HITS_DAMPING));
  }
  const { sums, votes } = postings.count();
  const voted = largest(sums, most).map((slot) => ({
    slot,
    votes: sums[slot] ?? 0,
    turn: (mostVotedTurn(votes, slot) / TURNS) * TURN,
  }));
  postings.clear();
  return voted;
}

function mostVotedTurn(votes: Float32Array, slot: number): number {
  let [best, most] = [0, 0];
  for (let turn = 0; turn < TURNS; turn++) {
    const beside =
      (votes[slot * TURNS + ((turn + 15) & 15)] ?? 0) + (votes[slot * TURNS + ((turn + 1) & 15)] ?? 0);
    const here = (votes[slot * TURNS + turn] ?? 0) + beside / 2;
    if (here <= most) continue;
    most = here;
    best = turn;
  }
  return best;
}

/** Where the largest values lie that are more than 0, largest first, at most `most`. */
function largest(values: Float32Array, most: number): number[] {
  const found: number[] = [];
  let least = 0;
  for (let at = 0; at < values.length; at++) {
    const value = values[at] ?? 0;
    if (value <= least) continue;
    let to = found.length < most ? found.length : most - 1;
    for (; to > 0 && (values[found[to - 1] ?? 0] ?? 0) < value; to--) found[to] = found[to - 1] ?? 0;
    found[to] = at;
    if (found.length === most) least = values[found[most - 1] ?? 0] ?? 0;
  }
  return found;
}
