import type { Codebook } from '../../../shared/domain/look-up/codebook.ts';
import { VOTE_BITS, writeCellMiddle } from '../../../shared/domain/look-up/encode.ts';
import { DESCRIPTOR_LENGTH, type Features } from '../../../shared/domain/look-up/features.ts';
import { countOnes, signBits } from '../../../shared/domain/look-up/mixing.ts';
import { variedCell, type Probes } from '../../../shared/domain/look-up/probes.ts';
import { variedAngle, type Variant } from '../../../shared/domain/look-up/variants.ts';
import type { Postings } from './postings.ts';
import { sixteenthOf } from './record.ts';

// Ours, chosen on the half of the labelled set that is for choosing.
const BITS_LIMIT = 11;
const BITS_SPREAD = 60;
/** Postings read for one feature, nearest cells first: bounds the time however large the archive grows. */
const MOST_READ = 4000;
const HITS_DAMPING = 8;
const TURN = 2 * Math.PI;
const WEIGHTS = Float32Array.from({ length: 33 }, (_, distance) => Math.exp(-(distance ** 2) / BITS_SPREAD));

/** A picture of the archive with its votes, and the turn (radians) that most of them agree on. */
export interface Voted {
  readonly slot: number;
  readonly votes: number;
  readonly turn: number;
}

/** Counts, for every picture of the archive, the features that it may share with the one that is looked for. */
export interface Voting {
  /** The slots with most votes in one variant, most first, at most `most`. */
  readonly vote: (
    features: Features,
    mixed: Float32Array,
    probes: Probes,
    variant: Variant,
    most: number,
  ) => Voted[];
}

/**
 * Votes over `postings`. A vote counts for a turn of the whole picture, in sixteenths: features that really are
 * shared agree on it, chance ones do not.
 */
export function createVoting(codebook: Codebook, postings: Postings): Voting {
  let votes = new Float32Array(0);
  let lastVoter = new Int32Array(0);
  let hits: Hits = { places: new Uint32Array(1024), weights: new Float32Array(1024) };

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
      const middle = new Float32Array(VOTE_BITS);
      const touched: number[] = [];
      for (let i = 0; i < probes.count; i++) {
        const row = mixed.subarray(i * DESCRIPTOR_LENGTH, i * DESCRIPTOR_LENGTH + VOTE_BITS);
        const sixteenth = sixteenthOf(variedAngle(features.angle[i] ?? 0, variant));
        let count = 0;
        let left = MOST_READ;
        for (let rank = 0; rank < probes.reach; rank++) {
          const cell = variedCell(probes.cells[i * probes.reach + rank] ?? 0, codebook.size, variant);
          let own = -1;
          postings.visit(cell, ({ bits, places, start, end }) => {
            if (end - start > left) return;
            left -= end - start;
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
              if (count === hits.places.length) hits = doubled(hits);
              // A sixteenth of a turn is kept below the slot, as in the postings.
              hits.places[count] = slot * 16 + ((place - sixteenth) & 15);
              hits.weights[count++] = WEIGHTS[distance] ?? 0;
            }
          });
        }
        const share = 1 / Math.sqrt(1 + count / HITS_DAMPING);
        for (let k = 0; k < count; k++) {
          const at = hits.places[k] ?? 0;
          if (votes[at] === 0) touched.push(at >>> 4);
          votes[at] = (votes[at] ?? 0) + (hits.weights[k] ?? 0) * share;
        }
      }
      const sums: Voted[] = [];
      for (const slot of new Set(touched)) {
        let best = 0;
        let middle = 0;
        for (let turn = 0; turn < 16; turn++) {
          const before = votes[slot * 16 + ((turn + 15) & 15)] ?? 0;
          const here = votes[slot * 16 + turn] ?? 0;
          const after = votes[slot * 16 + ((turn + 1) & 15)] ?? 0;
          if (before / 2 + here + after / 2 <= best) continue;
          best = before / 2 + here + after / 2;
          middle = turn;
        }
        sums.push({ slot, votes: best, turn: (middle / 16) * TURN });
        votes.fill(0, slot * 16, slot * 16 + 16);
        lastVoter[slot] = -1;
      }
      return sums.sort((a, b) => b.votes - a.votes).slice(0, most);
    },
  };
}

interface Hits {
  readonly places: Uint32Array<ArrayBuffer>;
  readonly weights: Float32Array<ArrayBuffer>;
}

function doubled({ places, weights }: Hits): Hits {
  const more = { places: new Uint32Array(places.length * 2), weights: new Float32Array(weights.length * 2) };
  more.places.set(places);
  more.weights.set(weights);
  return more;
}
