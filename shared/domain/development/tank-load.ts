import type { Tank } from './tank-volume.ts';
import { volumeForReels } from './tank-volume.ts';

/** A roll that waits to be developed, as far as sharing a tank is concerned. */
export type WaitingRoll = {
  readonly id: number;
  readonly processKey: string;
  /** Push (+) or pull (−), stops. */
  readonly stops: number;
  /** This film's own developer time where the user gave one, else null. */
  readonly developerSeconds: number | null;
  /** Which reel it goes on. */
  readonly reel: '135' | '120';
  /** How fast it uses the fixer against an ordinary film, 1 for ordinary. */
  readonly filmFactor: number;
};

/** Why rolls cannot go into one tank together. */
type LoadRefusalCode =
  | 'no_rolls'
  | 'process_differs'
  | 'push_differs'
  | 'time_differs'
  | 'film_factor_differs'
  | 'too_many_reels'
  | 'volume_over_tank';

/**
 * One reason, with the values that stand against each other, as many as there are: processes, stops, seconds,
 * factors; for reels and volume what is asked and what there is.
 */
export type LoadRefusal = { readonly code: LoadRefusalCode; readonly values: readonly (string | number)[] };

/** Whether rolls can share the tank; if not every reason, and groups of their ids that could, in order. */
export type LoadCheck = {
  readonly refusals: readonly LoadRefusal[];
  readonly groups: readonly (readonly number[])[];
};

function distinct<Value extends string | number>(values: readonly Value[]): readonly Value[] {
  return [...new Set(values)];
}

function countReels(rolls: readonly WaitingRoll[]) {
  const reels120 = rolls.filter((roll) => roll.reel === '120').length;
  return { reels135: rolls.length - reels120, reels120 };
}

function roomRefusal(rolls: readonly WaitingRoll[], tank: Tank): LoadRefusal | null {
  if (tank.reels !== null && rolls.length > tank.reels) {
    return { code: 'too_many_reels', values: [rolls.length, tank.reels] };
  }
  const volume = volumeForReels({ ...tank, volumeMl: null }, countReels(rolls));
  if (volume.ok && tank.volumeMl !== null && volume.value.value > tank.volumeMl) {
    return { code: 'volume_over_tank', values: [volume.value.value, tank.volumeMl] };
  }
  return null;
}

/** Rolls that agree in everything but room, in the order of their first. */
function byTreatment(rolls: readonly WaitingRoll[]): readonly (readonly WaitingRoll[])[] {
  const kinds = new Map<string, WaitingRoll[]>();
  for (const roll of rolls) {
    const kind = JSON.stringify([roll.processKey, roll.stops, roll.developerSeconds, roll.filmFactor]);
    const same = kinds.get(kind);
    if (same === undefined) kinds.set(kind, [roll]);
    else same.push(roll);
  }
  return [...kinds.values()];
}

/** Fills one tank after the other; a roll that no tank holds alone still stands as a group, to be refused by itself. */
function byRoom(rolls: readonly WaitingRoll[], tank: Tank): readonly (readonly WaitingRoll[])[] {
  const loads: WaitingRoll[][] = [];
  for (const roll of rolls) {
    const load = loads.find((candidate) => roomRefusal([...candidate, roll], tank) === null);
    if (load === undefined) loads.push([roll]);
    else load.push(roll);
  }
  return loads;
}

/** Checks a load against a tank, and sorts the rolls into loads that agree and have room. */
export function checkLoad(rolls: readonly WaitingRoll[], tank: Tank): LoadCheck {
  if (rolls.length === 0) return { refusals: [{ code: 'no_rolls', values: [] }], groups: [] };
  const refusals: LoadRefusal[] = [];
  const compare = (code: LoadRefusalCode, values: readonly (string | number)[]) => {
    const different = distinct(values);
    if (different.length > 1) refusals.push({ code, values: different });
  };
  compare(
    'process_differs',
    rolls.map((roll) => roll.processKey),
  );
  compare(
    'push_differs',
    rolls.map((roll) => roll.stops),
  );
  // A film without a time of its own takes the process's, which may be another; null counts as a value.
  compare(
    'time_differs',
    rolls.map((roll) => roll.developerSeconds ?? 'time of the process'),
  );
  compare(
    'film_factor_differs',
    rolls.map((roll) => roll.filmFactor),
  );
  const room = roomRefusal(rolls, tank);
  if (room !== null) refusals.push(room);
  const groups = byTreatment(rolls)
    .flatMap((same) => byRoom(same, tank))
    .map((load) => load.map((roll) => roll.id));
  return { refusals, groups };
}
