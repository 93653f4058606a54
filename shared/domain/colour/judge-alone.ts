import { directionOf, greyShifted, shiftOf } from './cast-axes.ts';
import type { Direction, Shift } from './cast-axes.ts';
import { MEASURED_FROM } from './cast-frame.ts';
import type { FrameCast } from './cast-frame.ts';
import { labOfGrey } from './grey.ts';
import type { GreyRatio } from './grey.ts';

/** What one picture on its own can say: a leaning only where light alone hardly ever goes. */
export type Alone = {
  readonly direction: Direction | null;
  readonly note: string;
};

/**
 * Where the greys of one picture lie when nothing is wrong. Lamps and low sun glow, and a glow keeps to one line of
 * colours: warm light has little room across it. Dusk, dawn and gas-discharge lamps have more.
 * Our choice, measured on 324 free views of 18 places and the film scans of the tests. Along the line a single picture
 * may lie nearly anywhere: most slight casts cannot be told from the light on one picture; the roll tells.
 */
const USUAL = {
  /** Room across for light up to so far along the line: cool, warm, and as warm as a lamp. */
  rooms: [
    { upTo: 0.15, green: -0.5, magenta: 0.7 },
    { upTo: 0.45, green: -0.35, magenta: 0.25 },
    { upTo: Number.POSITIVE_INFINITY, green: -0.35, magenta: 0.1 },
  ],
  yellow: 0.74,
  blue: -0.75,
} as const;

/** So warm a grey is far from any neutral, which lowers its confidence by itself: less is asked. Our choice, measured. */
const YELLOW_FROM = 0.2;

/**
 * The grey that a leaning is named from: as warm as film scans usually are. Our choice: the plain film scans of the
 * tests lie there.
 */
const USUAL_WARMTH: GreyRatio = greyShifted({ u: 0, v: 0 }, { across: 0, along: 0.3 });

/** Shadows and highlights that part across the colours of light by so much: no one leaning holds. Our choice, measured. */
const APART = 0.45;

/** What the greys of one picture say without its roll. */
export function judgeGrey(cast: FrameCast): Alone {
  if (cast.grey === null || cast.a === null || cast.b === null) {
    return { direction: null, note: 'The subject has no neutral to go by.' };
  }
  const shift = shiftOf(cast.grey);
  if (cast.confidence < (shift.along > USUAL.yellow ? YELLOW_FROM : MEASURED_FROM)) {
    return { direction: null, note: 'Too little neutral in the subject to be sure.' };
  }
  if (partsApart(cast)) {
    return {
      direction: null,
      note: 'Shadows and highlights lean apart; its roll can tell whether that is the film.',
    };
  }
  if (isUsual(shift)) {
    return { direction: null, note: 'Within what light alone can do; its roll can tell more.' };
  }
  const usual = labOfGrey(USUAL_WARMTH);
  const direction = directionOf(cast.a - usual.a, cast.b - usual.b);
  return { direction, note: `Greys lean to ${direction}.` };
}

function isUsual({ across, along }: Shift): boolean {
  const room = USUAL.rooms.find(({ upTo }) => along <= upTo);
  const isOnLine = along > USUAL.blue && along < USUAL.yellow;
  return isOnLine && room !== undefined && across > room.green && across < room.magenta;
}

/** Unlike subjects part shadows from highlights as a crossover does, so one picture names no direction then. */
function partsApart({ tones }: FrameCast): boolean {
  return tones !== null && Math.abs(shiftOf(tones.highlights, tones.shadows).across) >= APART;
}
