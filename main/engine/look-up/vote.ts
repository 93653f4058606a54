import type { Codebook } from '../../../shared/domain/look-up/codebook.ts';
import { VOTE_BITS, writeCellMiddle } from '../../../shared/domain/look-up/encode.ts';
import { DESCRIPTOR_LENGTH, type Features } from '../../../shared/domain/look-up/features.ts';
import { countOnes, signBits } from '../../../shared/domain/look-up/mixing.ts';
import { variedCell, type Probes } from '../../../shared/domain/look-up/probes.ts';
import { variedAngle, type Variant } from '../../../shared/domain/look-up/variants.ts';
import type { Postings } from './postings.ts';

// Ours, chosen on the half of the labelled set that is for choosing.
const BITS_LIMIT = 10;
const BITS_SPREAD = 40;
/** Cells this many times as full as the mean are skipped: what everything has tells nothing. */
const FULLEST = 60;
const HITS_DAMPING = 8;
const TURN = 2 * Math.PI;

/** Counts, for every picture of the archive, the features that it may share with the one that is looked for. */
export interface Voting {
  /** The slots with most votes in one variant, most first, at most `most`. */
  readonly vote: (
    features: Features,
    mixed: Float32Array,
    probes: Probes,
    variant: Variant,
    most: number,
  ) => { slot: number; votes: number }[];
}

/**
 * Votes over `postings`. A vote counts for a turn of the whole picture, in sixteenths: features that really are
 * shared agree on it, chance ones do not.
 */
export function createVoting(codebook: Codebook, postings: Postings): Voting {
  let votes = new Float32Array(0);
  let lastVoter = new Int32Array(0);
  let touched: number[] = [];

  function makeRoom(slot: number): void {
    if (slot < lastVoter.length) return;
    const size = Math.max(1024, slot + 1, lastVoter.length * 2);
    const moreVotes = new Float32Array(size * 16);
    moreVotes.set(votes);
    const moreVoters = new Int32Array(size).fill(-1);
    moreVoters.set(lastVoter);
    [votes, lastVoter] = [moreVotes, moreVoters];
  }

  return {
    vote(features, mixed, probes, variant, most) {
      const fullest = Math.max(64, postings.meanLength() * FULLEST);
      const middle = new Float32Array(VOTE_BITS);
      const hits: { slot: number; turn: number; weight: number }[] = [];
      for (let i = 0; i < features.count; i++) {
        const row = mixed.subarray(i * DESCRIPTOR_LENGTH, i * DESCRIPTOR_LENGTH + VOTE_BITS);
        const angle = variedAngle(features.angle[i] ?? 0, variant);
        const sixteenth = ((Math.round((angle / TURN) * 16) % 16) + 16) % 16;
        hits.length = 0;
        for (let rank = 0; rank < probes.reach; rank++) {
          const cell = variedCell(probes.cells[i * probes.reach + rank] ?? 0, codebook.size, variant);
          let own = -1;
          postings.visit(cell, ({ bits, places, start, end }) => {
            if (end - start > fullest) return;
            if (own < 0) {
              writeCellMiddle(codebook, cell, middle);
              own = signBits(row, middle, 0);
            }
            for (let k = start; k < end; k++) {
              const distance = countOnes(own ^ (bits[k] ?? 0));
              if (distance > BITS_LIMIT) continue;
              const place = places[k] ?? 0;
              const slot = place >>> 4;
              makeRoom(slot);
              // One vote a feature and picture: the nearest cell comes first.
              if (lastVoter[slot] === i) continue;
              lastVoter[slot] = i;
              const weight = Math.exp((-distance * distance) / BITS_SPREAD);
              hits.push({ slot, turn: ((place & 15) - sixteenth + 16) & 15, weight });
            }
          });
        }
        const share = 1 / Math.sqrt(1 + hits.length / HITS_DAMPING);
        for (const { slot, turn, weight } of hits) {
          const at = slot * 16 + turn;
          if (votes[at] === 0) touched.push(slot);
          votes[at] = (votes[at] ?? 0) + weight * share;
        }
      }
      const seen = new Set(touched);
      const sums: { slot: number; votes: number }[] = [];
      for (const slot of seen) {
        let best = 0;
        for (let turn = 0; turn < 16; turn++) {
          const here = votes[slot * 16 + turn] ?? 0;
          const next = votes[slot * 16 + ((turn + 1) & 15)] ?? 0;
          const after = votes[slot * 16 + ((turn + 2) & 15)] ?? 0;
          best = Math.max(best, here / 2 + next + after / 2);
        }
        sums.push({ slot, votes: best });
        votes.fill(0, slot * 16, slot * 16 + 16);
        lastVoter[slot] = -1;
      }
      touched = [];
      return sums.sort((a, b) => b.votes - a.votes).slice(0, most);
    },
  };
}
