import { median } from '../statistics/order.ts';

/** What is measured on a roll: its cast against its stock (CIE Lab, ΔE00), and the fog of its base against it (D). */
export const MEASURES = ['deltaA', 'deltaB', 'deltaE00', 'fog'] as const;
export type Measure = (typeof MEASURES)[number];

/** What the log knows of a roll as a number. */
export const LOG_NUMBERS = [
  'temperatureErrorC',
  'effectiveSeconds',
  'bathRolls',
  'monthsPastExpiry',
  'warmMonths',
] as const;
export type LogNumber = (typeof LOG_NUMBERS)[number];

/** What the log knows of a roll as one of several kinds. */
export const LOG_KINDS = ['storage', 'camera', 'scanner'] as const;
export type LogKind = (typeof LOG_KINDS)[number];

/** A roll, or all rolls of a development, with what was measured and what the log knows; null is not known. */
export type Logged = {
  readonly id: number;
  readonly name: string;
} & { readonly [Key in Measure | LogNumber]: number | null } & { readonly [Key in LogKind]: string | null };

/** A roll that was, or was not, developed here. */
export type LoggedRoll = Logged & {
  readonly development: { readonly id: number; readonly name: string } | null;
};

/** Whether each thing counted is a roll or a development. */
export type Per = 'roll' | 'development';

/**
 * The developments of rolls, each with the middle of what was measured on its rolls: rolls of one tank share its
 * temperature and its bath, so they are not as many witnesses as they are rolls. Rolls without a development are left
 * out; a kind (camera, scanner …) counts where all its rolls agree.
 */
export function perDevelopment(rolls: readonly LoggedRoll[]): Logged[] {
  const byDevelopment = new Map<number, LoggedRoll[]>();
  for (const roll of rolls) {
    if (roll.development === null) continue;
    byDevelopment.set(roll.development.id, [...(byDevelopment.get(roll.development.id) ?? []), roll]);
  }
  return [...byDevelopment].map(([id, group]) => {
    const middle = (key: Measure | LogNumber) => {
      const known = group.flatMap((roll) => roll[key] ?? []);
      return known.length === 0 ? null : median(known);
    };
    const common = (key: LogKind) => {
      const [first, ...others] = new Set(group.map((roll) => roll[key]));
      return others.length === 0 ? (first ?? null) : null;
    };
    return {
      id,
      name: group[0]?.development?.name ?? '',
      deltaA: middle('deltaA'),
      deltaB: middle('deltaB'),
      deltaE00: middle('deltaE00'),
      fog: middle('fog'),
      temperatureErrorC: middle('temperatureErrorC'),
      effectiveSeconds: middle('effectiveSeconds'),
      bathRolls: middle('bathRolls'),
      monthsPastExpiry: middle('monthsPastExpiry'),
      warmMonths: middle('warmMonths'),
      storage: common('storage'),
      camera: common('camera'),
      scanner: common('scanner'),
    };
  });
}
