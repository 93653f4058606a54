import { accept, refuse } from '../checked.ts';
import type { Source } from './source.ts';
import { arithmetic, reported, ruleOfThumb } from './source.ts';
import type { Worked, WorkedOrNot } from './working.ts';
import { shown, shownTime } from './working.ts';

/**
 * What a push (+) or pull (−) does to a developer time: seconds to add, or a factor, per row of stops. The row for
 * 0 stops is understood.
 */
export type PushTable = {
  readonly kind: 'seconds' | 'factor';
  readonly rows: readonly { readonly stops: number; readonly value: number }[];
  readonly source: Source;
};

/** The default for C-41, to be replaced by the user's own: half a minute per stop on 3:15. */
export const C41_PUSH: PushTable = {
  kind: 'seconds',
  rows: [
    { stops: -1, value: -30 },
    { stops: 1, value: 30 },
    { stops: 2, value: 60 },
  ],
  source: reported(
    'Half a minute per stop (3:45, 4:15), https://www.brodie-tyrrell.org/wiki/index.php?C41Processing ; others say a third more for one stop: edit to taste',
  ),
};

/** The default for black-and-white: × 1.4 per stop of push, × 0.825 per stop of pull. */
export const BLACK_AND_WHITE_PUSH: PushTable = {
  kind: 'factor',
  rows: [
    { stops: -1, value: 0.825 },
    { stops: 1, value: 1.4 },
    { stops: 2, value: 1.4 * 1.4 },
  ],
  source: ruleOfThumb(
    'Middle of × 1.3 to 1.5 per stop of push and 15 to 20 % less per stop of pull; a film’s own table is better',
  ),
};

/** Why a push cannot be worked out. */
export type PushRefusal =
  'push_table_missing' | 'shift_outside_table' | 'shift_not_real' | 'push_leaves_no_time';

function valueAt(table: PushTable, stops: number): number | null {
  const nothing = table.kind === 'seconds' ? 0 : 1;
  const rows = [...table.rows.filter((row) => row.stops !== 0), { stops: 0, value: nothing }].toSorted(
    (a, b) => a.stops - b.stops,
  );
  const below = rows.findLast((row) => row.stops <= stops);
  const above = rows.find((row) => row.stops >= stops);
  if (below === undefined || above === undefined) return null;
  if (above.stops === below.stops) return below.value;
  const share = (stops - below.stops) / (above.stops - below.stops);
  // Factors multiply, so a third of a stop is a third of the way in the logarithm.
  return table.kind === 'seconds'
    ? below.value + share * (above.value - below.value)
    : below.value * (above.value / below.value) ** share;
}

/** `stops` with its sign in words: `+1 stop`, `−2 stops`, `+1.5 stops`. */
function stopsText(stops: number): string {
  const size = Math.abs(stops);
  return `${stops < 0 ? '−' : '+'}${shown(size)} ${size === 1 ? 'stop' : 'stops'}`;
}

/**
 * A developer time in seconds after a push or pull of `stops`. No shift leaves the time as it is and writes no
 * line; between rows it goes by share of the way, beyond the table it is refused.
 */
export function applyPush(
  seconds: number,
  stops: number,
  table: PushTable | null,
): WorkedOrNot<number, PushRefusal> {
  if (!Number.isFinite(stops)) return refuse('shift_not_real');
  if (stops === 0) return accept({ value: seconds, lines: [] });
  if (table === null) return refuse('push_table_missing');
  const change = valueAt(table, stops);
  if (change === null) return refuse('shift_outside_table');
  const value = table.kind === 'seconds' ? seconds + change : seconds * change;
  if (!(value > 0)) return refuse('push_leaves_no_time');
  const sign = change < 0 ? '−' : '+';
  const formula =
    table.kind === 'seconds'
      ? `${shownTime(seconds)} ${sign} ${shownTime(Math.abs(change))}`
      : `${shownTime(seconds)} × ${shown(change, 3)}`;
  return accept({
    value,
    lines: [{ label: `Development ${stopsText(stops)}`, formula, value, unit: 's', source: table.source }],
  });
}

/** How the exposure and the development of a roll stand to each other. */
export type ShiftComparison = {
  /** Stops the film was exposed below (+) or above (−) its box speed. */
  readonly exposedStops: number;
  /** Development shift minus exposed shift: negative means developed for less than it was exposed for. */
  readonly differenceStops: number;
  readonly verdict: 'together' | 'developed_for_less' | 'developed_for_more';
};

/** Indexes are rounded to thirds of a stop (1250, 1600, 2000), so half a third decides. */
const APART_STOPS = 1 / 6;

/**
 * Compares the exposure index a roll was shot at with the shift it is developed for; both are facts of their own.
 * `boxIso` and `exposureIndex` arithmetic ISO speeds, > 0.
 */
export function compareShift(
  boxIso: number,
  exposureIndex: number,
  developmentStops: number,
): Worked<ShiftComparison> {
  const exposedStops = Math.log2(exposureIndex / boxIso);
  const differenceStops = developmentStops - exposedStops;
  const apart = Math.abs(differenceStops) > APART_STOPS;
  const verdict = !apart ? 'together' : differenceStops < 0 ? 'developed_for_less' : 'developed_for_more';
  return {
    value: { exposedStops, differenceStops, verdict },
    lines: [
      {
        label: 'Exposed below the box speed by, in stops',
        formula: `log2(${shown(exposureIndex)} / ${shown(boxIso)})`,
        value: exposedStops,
        unit: '',
        source: arithmetic('One stop is a factor of two in speed'),
      },
      {
        label: 'Development minus exposure, in stops',
        formula: `${shown(developmentStops)} − ${shown(exposedStops)}`,
        value: differenceStops,
        unit: '',
        source: arithmetic('Difference of the two'),
      },
    ],
  };
}
