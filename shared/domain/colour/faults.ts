import { correctByHolm } from '../statistics/correction.ts';
import { exactTest } from '../statistics/exact-test.ts';

/**
 * One roll in a count of faults. The roll is what is counted, not the frame: frames of one roll share camera and
 * bath, and a leak on twenty of them is still one event.
 */
export type FaultRoll = {
  readonly roll: string;
  /** Names of the faults that any of its frames show. */
  readonly faults: readonly string[];
  /** By name of factor (camera, bath, scanner, holder, lab, stock, repair…): which one; null where not known. */
  readonly factors: Readonly<Record<string, string | null>>;
};

/** A factor to count by, and how one of its values reads in a sentence ("camera B", "before the repair of 3 May"). */
export type FaultFactor = { readonly name: string; readonly phrase: (value: string) => string };

/** A fault to count, and how it reads in a sentence for one roll and for many. */
export type FaultName = { readonly name: string; readonly phrase: string };

/** What a count of one fault by one factor shows. */
export type FaultFinding = {
  readonly fault: string;
  readonly factor: string;
  /** The value of the factor with more of the fault than its share, most clearly. */
  readonly value: string;
  readonly faultsThere: number;
  readonly rollsThere: number;
  readonly faults: number;
  readonly rolls: number;
  /** Rolls left out because the log does not say. */
  readonly unknown: number;
  /** The chance of a count at least as uneven if fault and factor had nothing to do with each other. */
  readonly p: number;
  /** The same, corrected by Holm for all comparisons of this call. */
  readonly corrected: number;
  readonly comparisons: number;
  readonly stands: boolean;
  readonly say: string;
};

/** A finding stands where chance does the like less than once in twenty, after correction. Source: common practice. */
const STANDS_BELOW = 0.05;

/**
 * Counts every fault by every factor and says how likely chance alone is, corrected for the number of comparisons
 * made; the clearest first. Comparisons where nothing could differ (one value, no fault, all faulty) are not made.
 * `random` gives 0 ≤ x < 1 and is used only for tables too large to weigh whole.
 */
export function countFaults(
  rolls: readonly FaultRoll[],
  faults: readonly FaultName[],
  factors: readonly FaultFactor[],
  random: () => number,
): FaultFinding[] {
  const counts = faults.flatMap((fault) =>
    factors.flatMap((factor) => {
      const count = countOne(rolls, fault, factor, random);
      return count === null ? [] : [{ ...count, names: { fault, factor } }];
    }),
  );
  const corrected = correctByHolm(counts.map((count) => count.p));
  return counts
    .map(({ names, ...count }, at): FaultFinding => {
      const finding = {
        ...count,
        corrected: corrected[at] ?? 1,
        comparisons: counts.length,
        stands: (corrected[at] ?? 1) < STANDS_BELOW,
      };
      return { ...finding, say: sayFinding(finding, names.fault, names.factor) };
    })
    .sort((one, other) => one.corrected - other.corrected || one.p - other.p);
}

type FaultCount = Omit<FaultFinding, 'corrected' | 'comparisons' | 'stands' | 'say'>;

function countOne(
  rolls: readonly FaultRoll[],
  fault: FaultName,
  factor: FaultFactor,
  random: () => number,
): FaultCount | null {
  const tally = new Map<string, { faulty: number; sound: number }>();
  let unknown = 0;
  for (const roll of rolls) {
    const value = roll.factors[factor.name] ?? null;
    if (value === null) {
      unknown += 1;
      continue;
    }
    const entry = tally.get(value) ?? { faulty: 0, sound: 0 };
    if (roll.faults.includes(fault.name)) entry.faulty += 1;
    else entry.sound += 1;
    tally.set(value, entry);
  }
  const rows = [...tally.values()];
  const faulty = rows.reduce((sum, row) => sum + row.faulty, 0);
  const all = rows.reduce((sum, row) => sum + row.faulty + row.sound, 0);
  if (rows.length < 2 || faulty === 0 || faulty === all) return null;
  const { p } = exactTest(
    rows.map((row) => [row.faulty, row.sound]),
    random,
  );
  // The value furthest above its share, in standard deviations of a count drawn without return.
  const excess = ([, row]: [string, { faulty: number; sound: number }]) => {
    const there = row.faulty + row.sound;
    const expected = (there * faulty) / all;
    const variance = (expected * (all - faulty) * (all - there)) / (all * Math.max(1, all - 1));
    return (row.faulty - expected) / Math.sqrt(Math.max(variance, 1e-9));
  };
  const [top] = [...tally.entries()].sort((one, other) => excess(other) - excess(one));
  if (top === undefined) return null;
  return {
    fault: fault.name,
    factor: factor.name,
    value: top[0],
    faultsThere: top[1].faulty,
    rollsThere: top[1].faulty + top[1].sound,
    faults: faulty,
    rolls: all,
    unknown,
    p,
  };
}

/** A chance in words: "less than once in 10 000", "about once in 40", "more often than not". */
export function sayChance(p: number): string {
  if (p < 1 / 10_000) return 'less than once in 10 000';
  if (p > 0.5) return 'more often than not';
  const times = 1 / p;
  const unit = 10 ** Math.max(0, Math.floor(Math.log10(times)) - 1);
  const rounded = Math.round(times / unit) * unit;
  return `about once in ${String(rounded).replace(/\B(?=(\d{3})+$)/g, ' ')}`;
}

function sayFinding(finding: Omit<FaultFinding, 'say'>, fault: FaultName, factor: FaultFactor): string {
  const where = factor.phrase(finding.value);
  const count = `${finding.faultsThere} of ${finding.faults} rolls with ${fault.phrase} are on ${where}`;
  const share = `which has ${finding.rollsThere} of ${finding.rolls} rolls`;
  const chance = `chance alone would do the like ${sayChance(finding.corrected)}`;
  const made = finding.comparisons === 1 ? 'one comparison made' : `${finding.comparisons} comparisons made`;
  const verdict = finding.stands ? 'This tells where, not why.' : 'That is no finding.';
  const left = finding.unknown === 0 ? '' : ` Left out, as the log does not say: ${finding.unknown}.`;
  return `${count}, ${share}; ${chance} (${made}). ${verdict}${left}`;
}
