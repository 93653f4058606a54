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
import {
  layFinely,
  layRoughly,
  preparePicture,
  type Prepared,
} from '../../../shared/domain/look-up/examine.ts';
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
import { findProbes } from '../../../shared/domain/look-up/probes.ts';
import { variedAngle, VARIANTS, type Variant } from '../../../shared/domain/look-up/variants.ts';
import { appError } from '../../../shared/api/errors.ts';
import type { Preview } from './look-up-index.ts';
import type { Postings } from './postings.ts';
import { signedFromRecord, type PictureRecord } from './record.ts';
import type { Slot, Slots } from './slots.ts';
import { vote, type Voted } from './vote.ts';

/** What the finder works on: the open index and the archive behind it. */
export interface FinderParts {
  readonly codebook: Codebook;
  readonly kernels: Kernels;
  readonly postings: Postings;
  readonly slots: Slots;
  readonly read: (slot: Slot) => PictureRecord | null;
  /** The preview of a picture; a small one has 256 px on its long side or less. */
  readonly preview: (pictureId: number, size: 'small' | 'large') => Promise<Preview | null>;
  readonly neighbours: (pictureId: number) => readonly number[];
  readonly observe: (candidates: readonly Candidate[]) => void;
}

/** How to look. */
export interface FindOptions {
  /** Hits answered at most. */
  readonly limit: number;
  /** Asked now and then; once true, the look-up ends as cancelled. */
  readonly isStale?: () => boolean;
}

/** A frame that is worth laying the picture over, and where to begin. */
interface Guess {
  readonly slot: Slot;
  /** Fractions of the picture to fractions of the frame. */
  readonly start: Matrix;
  readonly negative: boolean;
  readonly inliers: number;
}

/** Finds which pictures of the index show what another picture shows. */
export interface Finder {
  readonly find: (
    luma: Uint8Array | Float32Array,
    width: number,
    height: number,
    options: FindOptions,
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
  const { codebook, kernels, slots, postings } = parts;

  /** The candidates that guesses lead to: roughly over small previews first, then finely where that went well. */
  async function layAll(
    picture: Prepared,
    guesses: readonly Guess[],
    check: () => void,
  ): Promise<Candidate[]> {
    const rough = await layEach(picture, guesses, 'small', layRoughly);
    check();
    return layEach(picture, rough, 'large', layFinely);
  }

  async function layEach(
    picture: Prepared,
    guesses: readonly Guess[],
    size: 'small' | 'large',
    lay: typeof layFinely,
  ): Promise<(Candidate & Guess)[]> {
    const previews = await Promise.all(guesses.map(({ slot }) => parts.preview(slot.pictureId, size)));
    return guesses.flatMap((guess, i) => {
      const preview = previews[i];
      if (!preview) return [];
      const frame = lumaFrom(preview.luma, preview.width, preview.height);
      const laid = lay(picture, frame, guess.start, guess.negative);
      if (laid === null) return [];
      const { pictureId, groupId } = guess.slot;
      return [{ ...guess, ...laid, start: laid.matrix, pictureId, groupId }];
    });
  }

  /** Frames that the picture may be a whole copy of, nearest first. */
  function guessByHash(hash: FrameHash): Guess[] {
    const all = turnHash(hash);
    const words = Uint32Array.from(all.flatMap(({ low, high }) => [low, high]));
    const near = postings
      .nearHashes(words, HASH_RADIUS)
      .flatMap(({ slot: number, wanted, distance }) => {
        const slot = slots.get(number);
        const turned = all[wanted];
        return slot && turned ? [{ slot, turned, distance }] : [];
      })
      .sort((a, b) => a.distance - b.distance);
    const least = near[0]?.distance ?? 0;
    return near
      .filter(({ distance }) => distance <= least + HASH_MARGIN)
      .slice(0, MOST_BY_HASH)
      .map(({ slot, turned }) => ({ slot, start: wholeCopy(turned), negative: turned.negative, inliers: 0 }));
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
  function guessByFeatures(
    described: PictureDescription,
    signed: Signed,
    variant: Variant,
    voted: readonly Voted[],
  ): Guess[] {
    return voted
      .flatMap(({ slot: number, turn }) => {
        const slot = slots.get(number);
        const record = slot && parts.read(slot);
        const fit = record && fitFeatures(signed, signedFromRecord(record), turn, kernels);
        if (!slot || !record || !fit || fit.inliers < FEWEST_INLIERS) return [];
        const toPixels = scaling(described.width, described.height);
        const flip: Matrix = variant.mirrored
          ? [-1, 0, described.width, 0, 1, 0, 0, 0, 1]
          : [1, 0, 0, 0, 1, 0, 0, 0, 1];
        const toFractions = scaling(1 / record.width, 1 / record.height);
        const start = compose(toFractions, compose(fit.matrix, compose(flip, toPixels)));
        return [{ slot, start, negative: variant.negative, inliers: fit.inliers }];
      })
      .sort((a, b) => b.inliers - a.inliers)
      .slice(0, MOST_EXAMINED);
  }

  async function byFeatures(picture: Prepared, luma: Luma, check: () => void): Promise<Candidate[]> {
    const described = describeLuma(luma, QUERY_BUDGET, kernels);
    const { features } = described;
    const voters = Math.min(MOST_VOTERS, features.count);
    const probes = findProbes(features, codebook, kernels, voters, REACH);
    const found: Candidate[] = [];
    for (const variant of VARIANTS) {
      check();
      const mixed = mixedDescriptors(features, variant);
      const voted = vote(codebook, postings, { features, mixed, probes }, variant, MOST_VOTED);
      check();
      const guesses = guessByFeatures(described, signedVariant(described, variant, mixed), variant, voted);
      found.push(...(await layAll(picture, guesses, check)));
      if (found.some(isMatch)) break;
    }
    return found;
  }

  /** The rest of a burst: the neighbours of each match, laid where the match lies. */
  async function byNeighbours(
    picture: Prepared,
    found: readonly Candidate[],
    check: () => void,
  ): Promise<Candidate[]> {
    const known = new Set(found.map((candidate) => candidate.pictureId));
    const guesses: Guess[] = [];
    for (const { pictureId, matrix, negative, inliers } of found.filter(isMatch)) {
      for (const neighbour of parts.neighbours(pictureId)) {
        const slot = slots.get(slots.find(neighbour) ?? Infinity);
        if (known.has(neighbour) || !slot) continue;
        known.add(neighbour);
        guesses.push({ slot, start: matrix, negative, inliers });
      }
    }
    return layAll(picture, guesses, check);
  }

  async function gather(luma: Luma, check: () => void): Promise<Candidate[] | 'cannot-tell'> {
    if (!hasDetail(luma)) return 'cannot-tell';
    const picture = preparePicture(luma);
    let found = await layAll(picture, guessByHash(hashFrame(luma)), check);
    if (!found.some(isMatch)) found = [...found, ...(await byFeatures(picture, luma, check))];
    return [...found, ...(await byNeighbours(picture, found, check))];
  }

  return {
    async find(pixels, width, height, { limit, isStale = () => false }) {
      const candidates = await gather(lumaFrom(pixels, width, height), () => {
        if (isStale()) throw appError('cancelled', {});
      });
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
