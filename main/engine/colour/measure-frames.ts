import type { Balance } from '../../../shared/domain/colour/balance.ts';
import { samplesOfFrame } from '../../../shared/domain/colour/balance.ts';
import { castOfFrame, type FrameCast } from '../../../shared/domain/colour/cast-frame.ts';
import { castOfRoll } from '../../../shared/domain/colour/cast-roll.ts';
import type { FilmBase } from '../../../shared/domain/colour/film-base.ts';
import { applyLook, makePositiveLook, UNADJUSTED, whiteOfRoll } from '../../../shared/domain/colour/look.ts';
import { lightOf, type Picture } from '../../../shared/domain/colour/picture.ts';
import { centredOn } from '../../../shared/domain/colour/restate.ts';

/** Times that the balance is moved onto the greys that were found. Our choice: the second moves by less than is seen. */
const ROUNDS = 2;

/** Colour negatives: the casts of their frames, and the balance that they were found under. */
export interface MeasuredNegatives {
  readonly casts: readonly FrameCast[];
  readonly balance: Balance;
}

/**
 * The casts of the frames of a roll of colour negatives. Greys are found surest where they look neutral, so the balance
 * is moved onto them before they are found for good: where it started from, and the gains of the scanner, then do not
 * show in the result.
 */
export function measureNegatives(
  pictures: readonly Picture[],
  base: FilmBase,
  start: Balance,
): MeasuredNegatives {
  const samples = pictures.flatMap((picture) => samplesOfFrame(lightOf(picture)));
  const castsUnder = (balance: Balance): FrameCast[] => {
    const white = whiteOfRoll(samples, base, balance);
    const look = makePositiveLook({ kind: 'colour-negative', base, balance, white }, UNADJUSTED);
    return pictures.map((picture) => castOfFrame(lightOf(applyLook(picture, look)), 'positive'));
  };
  let balance = start;
  let casts = castsUnder(balance);
  for (let round = 0; round < ROUNDS; round += 1) {
    const roll = castOfRoll(casts);
    // Too few greys to move onto.
    if (roll === null) break;
    balance = centredOn(balance, roll.grey);
    casts = castsUnder(balance);
  }
  return { casts, balance };
}
