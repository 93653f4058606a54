import type { Codebook } from '../../../shared/domain/look-up/codebook.ts';
import {
  decide,
  isMatch,
  type Answer,
  type Candidate,
  type Hit,
} from '../../../shared/domain/look-up/decide.ts';
import { describeLuma, type PictureDescription } from '../../../shared/domain/look-up/describe-picture.ts';
import { hasDetail } from '../../../shared/domain/look-up/detail.ts';
import { mixedDescriptors, signaturesOf } from '../../../shared/domain/look-up/encode.ts';
import { examine, preparePicture, type Prepared } from '../../../shared/domain/look-up/examine.ts';
import { QUERY_BUDGET } from '../../../shared/domain/look-up/features.ts';
import {
  hashFrame,
  turnHash,
  type FrameHash,
  type TurnedHash,
} from '../../../shared/domain/look-up/frame-hash.ts';
import type { Kernels } from '../../../shared/domain/look-up/kernels.ts';
import { lumaFrom, type Luma } from '../../../shared/domain/look-up/luma.ts';
import { fitFeatures, type Signed } from '../../../shared/domain/look-up/match.ts';
import { compose, scaling, type Matrix } from '../../../shared/domain/look-up/matrix.ts';
import { countOnes } from '../../../shared/domain/look-up/mixing.ts';
import { findProbes } from '../../../shared/domain/look-up/probes.ts';
import { variedAngle, VARIANTS, type Variant } from '../../../shared/domain/look-up/variants.ts';
import type { Preview, Slot } from './look-up-index.ts';
import type { Postings } from './postings.ts';
import { signedFromRecord, type PictureRecord } from './record.ts';
import { createVoting, type Voted } from './vote.ts';

/** What the finder works on: the open index and the archive behind it. */
export interface FinderParts {
  readonly codebook: Codebook;
  readonly kernels: Kernels;
  readonly postings: Postings;
  readonly slots: readonly (Slot | null)[];
  readonly slotOf: ReadonlyMap<number, number>;
  /** Two words a slot. */
  readonly hashes: readonly number[];
  readonly read: (slot: Slot) => PictureRecord | null;
  readonly preview: (pictureId: number) => Promise<Preview | null>;
  readonly neighbours: (pictureId: number) => readonly number[];
  readonly observe: (candidates: readonly Candidate[]) => void;
}

/** Finds which pictures of the index show what another picture shows. */
export interface Finder {
  readonly find: (
    luma: Uint8Array | Float32Array,
    width: number,
    height: number,
    limit: number,
  ) => Promise<{ answer: Answer; hits: Hit[] }>;
}

// Ours, chosen on the half of the labelled set that is for choosing.
const HASH_RADIUS = 12;
/** Hashes this much farther than the nearest are not of the same copy. */
const HASH_MARGIN = 6;
const MOST_BY_HASH = 6;
/** Features that vote: the coarse ones, which come first, and the strongest of the fine ones. */
const MOST_VOTERS = 450;
const REACH = 48;
const MOST_VOTED = 32;
const MOST_EXAMINED = 6;
const FEWEST_INLIERS = 5;

export function createFinder(parts: FinderParts): Finder {
  const { codebook, kernels, slots, slotOf } = parts;
  const voting = createVoting(codebook, parts.postings);

  async function lay(
    picture: Prepared,
    slot: Slot,
    start: Matrix,
    negative: boolean,
    inliers: number,
  ): Promise<Candidate | null> {
    const preview = await parts.preview(slot.pictureId);
    if (preview === null) return null;
    const frame = lumaFrom(preview.luma, preview.width, preview.height);
    const examined = examine(picture, frame, start, negative);
    if (examined === null) return null;
    return { ...examined, pictureId: slot.pictureId, groupId: slot.groupId, negative, inliers };
  }

  async function byHash(picture: Prepared, hash: FrameHash): Promise<Candidate[]> {
    const found: Candidate[] = [];
    for (const { slot, turned } of nearestHashes(hash)) {
      const candidate = await lay(picture, slot, wholeCopy(turned), turned.negative, 0);
      if (candidate !== null) found.push(candidate);
    }
    return found;
  }

  function nearestHashes(hash: FrameHash): { slot: Slot; turned: TurnedHash }[] {
    const near: { slot: Slot; turned: TurnedHash; distance: number }[] = [];
    const all = turnHash(hash);
    for (let i = 0; i < slots.length; i++) {
      const low = parts.hashes[2 * i] ?? 0;
      const high = parts.hashes[2 * i + 1] ?? 0;
      for (const turned of all) {
        const distance = countOnes(turned.low ^ low) + countOnes(turned.high ^ high);
        if (distance > HASH_RADIUS) continue;
        const slot = slots[i];
        if (slot) near.push({ slot, turned, distance });
      }
    }
    near.sort((a, b) => a.distance - b.distance);
    const least = near[0]?.distance ?? 0;
    return near.filter(({ distance }) => distance <= least + HASH_MARGIN).slice(0, MOST_BY_HASH);
  }

  /** The picture's features as `variant` has them, ready to be matched against frames. */
  function signedVariant(described: PictureDescription, variant: Variant, mixed: Float32Array): Signed {
    const { features, width } = described;
    return {
      count: features.count,
      x: variant.mirrored ? features.x.map((x) => width - x) : features.x,
      y: features.y,
      scale: features.scale,
      angle: features.angle.map((angle) => variedAngle(angle, variant)),
      signatures: signaturesOf(mixed, codebook),
    };
  }

  /** Frames whose features agree with the picture's, most first. */
  function fitting(described: PictureDescription, signed: Signed, variant: Variant, voted: readonly Voted[]) {
    return voted
      .flatMap(({ slot: number, turn }) => {
        const slot = slots[number];
        if (!slot) return [];
        const record = parts.read(slot);
        const fit = record === null ? null : fitFeatures(signed, signedFromRecord(record), turn);
        if (record === null || fit === null || fit.inliers < FEWEST_INLIERS) return [];
        const toPixels = scaling(described.width, described.height);
        const flip: Matrix = variant.mirrored
          ? [-1, 0, described.width, 0, 1, 0, 0, 0, 1]
          : [1, 0, 0, 0, 1, 0, 0, 0, 1];
        const toFractions = scaling(1 / record.width, 1 / record.height);
        const start = compose(toFractions, compose(fit.matrix, compose(flip, toPixels)));
        return [{ slot, start, inliers: fit.inliers }];
      })
      .sort((a, b) => b.inliers - a.inliers);
  }

  async function byFeatures(picture: Prepared, luma: Luma): Promise<Candidate[]> {
    const described = describeLuma(luma, QUERY_BUDGET, kernels);
    const voters = Math.min(MOST_VOTERS, described.features.count);
    const probes = findProbes(described.features, codebook, kernels, voters, REACH);
    const found: Candidate[] = [];
    for (const variant of VARIANTS) {
      const mixed = mixedDescriptors(described.features, variant);
      const voted = voting.vote(described.features, mixed, probes, variant, MOST_VOTED);
      const signed = signedVariant(described, variant, mixed);
      const fits = fitting(described, signed, variant, voted);
      for (const { slot, start, inliers } of fits.slice(0, MOST_EXAMINED)) {
        const candidate = await lay(picture, slot, start, variant.negative, inliers);
        if (candidate !== null) found.push(candidate);
      }
      if (found.some(isMatch)) break;
    }
    return found;
  }

  /** The rest of a burst: the neighbours of each match, laid where the match lies. */
  async function byNeighbours(picture: Prepared, found: readonly Candidate[]): Promise<Candidate[]> {
    const known = new Set(found.map((candidate) => candidate.pictureId));
    const more: Candidate[] = [];
    for (const match of found.filter(isMatch)) {
      for (const neighbour of parts.neighbours(match.pictureId)) {
        const slot = slots[slotOf.get(neighbour) ?? -1];
        if (known.has(neighbour) || !slot) continue;
        known.add(neighbour);
        const candidate = await lay(picture, slot, match.matrix, match.negative, match.inliers);
        if (candidate !== null) more.push(candidate);
      }
    }
    return more;
  }

  async function gather(luma: Luma): Promise<Candidate[] | 'cannot-tell'> {
    if (!hasDetail(luma)) return 'cannot-tell';
    const picture = preparePicture(luma);
    let found = await byHash(picture, hashFrame(luma));
    if (!found.some(isMatch)) found = [...found, ...(await byFeatures(picture, luma))];
    return [...found, ...(await byNeighbours(picture, found))];
  }

  return {
    async find(pixels, width, height, limit) {
      const candidates = await gather(lumaFrom(pixels, width, height));
      if (candidates === 'cannot-tell') return { answer: 'cannot-tell', hits: [] };
      parts.observe(candidates);
      return decide(candidates, limit);
    },
  };
}

/** Fractions of a whole copy, turned and mirrored like this, to fractions of the frame. */
function wholeCopy({ turned, mirrored }: TurnedHash): Matrix {
  const back: Record<TurnedHash['turned'], Matrix> = {
    0: [1, 0, 0, 0, 1, 0, 0, 0, 1],
    // The copy's left edge is the frame's lower one: a copy turned clockwise is turned back.
    90: [0, 1, 0, -1, 0, 1, 0, 0, 1],
    180: [-1, 0, 1, 0, -1, 1, 0, 0, 1],
    270: [0, -1, 1, 1, 0, 0, 0, 0, 1],
  };
  return mirrored ? compose([-1, 0, 1, 0, 1, 0, 0, 0, 1], back[turned]) : back[turned];
}
