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
  /**
   * By name of factor (camera, bath, scanner, holder, lab, stock, repair…): which one; null where not known. A factor
   * that does not concern the roll (the repair of another camera) is not there.
   */
  readonly factors: Readonly<Record<string, string | null>>;
};

/** A factor to count by. */
export type FaultFactor = {
  readonly name: string;
  /** How one of its values reads after “are”: `on camera B`, `from before the repair of 3 May`. */
  readonly phrase: (value: string) => string;
  /** Which rolls it concerns, where not all: `of camera B`. */
  readonly among?: string;
};

/** A fault to count, and how it reads in a sentence after “rolls with”. */
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
  /** False where even the most uneven count of these rolls would not be rare. */
  readonly enough: boolean;
  /** Numbers of the rolls with the fault there, in the order given. */
  readonly there: readonly string[];
  readonly say: string;
};

/** A finding stands where chance does the like less than once in twenty, after correction. Source: common practice. */
const STANDS_BELOW = 0.05;

/** Two findings of which the rarer shares this much of its rolls with the other cannot be told apart. Our choice. */
const SAME_ROLLS = 0.8;

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
      return count === null ? [] : [{ count, fault, factor }];
    }),
  );
  const corrected = correctByHolm(counts.map(({ count }) => count.p));
  const found = counts.map((each, at) => ({
    ...each,
    finding: {
      ...each.count,
      corrected: corrected[at] ?? 1,
      comparisons: counts.length,
      stands: (corrected[at] ?? 1) < STANDS_BELOW,
    },
  }));
  return found
    .map(({ finding, fault, factor }): FaultFinding => {
      const alike = found.filter(
        (other) => other.finding !== finding && finding.stands && cannotBeToldApart(finding, other.finding),
      );
      const also = alike.map((other) => other.factor.phrase(other.finding.value));
      const { least: _least, ...told } = finding;
      return { ...told, say: sayFinding(finding, fault, factor, also) };
    })
    .sort((one, other) => one.corrected - other.corrected || one.p - other.p);
}

type FaultCount = Omit<FaultFinding, 'corrected' | 'comparisons' | 'stands' | 'say'> & {
  readonly least: number | null;
};
type Corrected = FaultCount & Pick<FaultFinding, 'corrected' | 'comparisons' | 'stands'>;

function cannotBeToldApart(one: Corrected, other: Corrected): boolean {
  if (!other.stands || other.fault !== one.fault) return false;
  const shared = one.there.filter((roll) => other.there.includes(roll)).length;
  return shared >= SAME_ROLLS * Math.min(one.there.length, other.there.length);
}

type Tally = { faulty: string[]; sound: number };

function countOne(
  rolls: readonly FaultRoll[],
  fault: FaultName,
  factor: FaultFactor,
  random: () => number,
): FaultCount | null {
  const tally = new Map<string, Tally>();
  let unknown = 0;
  for (const roll of rolls) {
    const value = roll.factors[factor.name];
    if (value === undefined) continue;
    if (value === null) {
      unknown += 1;
      continue;
    }
    const entry = tally.get(value) ?? { faulty: [], sound: 0 };
    if (roll.faults.includes(fault.name)) entry.faulty.push(roll.roll);
    else entry.sound += 1;
    tally.set(value, entry);
  }
  const rows = [...tally.values()];
  const faulty = rows.reduce((sum, row) => sum + row.faulty.length, 0);
  const all = rows.reduce((sum, row) => sum + row.faulty.length + row.sound, 0);
  if (rows.length < 2 || faulty === 0 || faulty === all) return null;
  const { p, least } = exactTest(
    rows.map((row) => [row.faulty.length, row.sound]),
    random,
  );
  // The value furthest above its share, in standard deviations of a count drawn without return.
  const excess = ([, row]: [string, Tally]) => {
    const there = row.faulty.length + row.sound;
    const expected = (there * faulty) / all;
    const variance = (expected * (all - faulty) * (all - there)) / (all * Math.max(1, all - 1));
    return (row.faulty.length - expected) / Math.sqrt(Math.max(variance, 1e-9));
  };
  const [top] = [...tally.entries()].sort((one, other) => excess(other) - excess(one));
  if (top === undefined) return null;
  return {
    fault: fault.name,
    factor: factor.name,
    value: top[0],
    faultsThere: top[1].faulty.length,
    rollsThere: top[1].faulty.length + top[1].sound,
    faults: faulty,
    rolls: all,
    unknown,
    p,
    least,
    enough: least === null || least < STANDS_BELOW,
    there: top[1].faulty,
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

function sayFinding(
  finding: Corrected,
  fault: FaultName,
  factor: FaultFactor,
  also: readonly string[],
): string {
  const among = factor.among === undefined ? '' : ` ${factor.among}`;
  const where = factor.phrase(finding.value);
  const faulty = `${finding.faults === 1 ? 'roll' : 'rolls'}${among} with ${fault.phrase}`;
  const count = `${finding.faultsThere} of ${finding.faults} ${faulty} ${finding.faultsThere === 1 ? 'is' : 'are'} ${where}`;
  const share = `as ${finding.rollsThere === 1 ? 'is' : 'are'} ${finding.rollsThere} of all ${finding.rolls} rolls${among}`;
  const left = finding.unknown === 0 ? '' : ` Left out, as the log does not say: ${finding.unknown}.`;
  if (!finding.enough) {
    const rarest = sayChance(finding.least ?? 1);
    return `${count}, ${share}. Not enough rolls to tell: the most uneven count that they could give would come by chance ${rarest}.${left}`;
  }
  const made =
    finding.comparisons === 1 ? 'one comparison' : `${finding.comparisons} comparisons, corrected after Holm`;
  const chance = `chance alone would do this ${sayChance(finding.corrected)} (exact test, ${made})`;
  const verdict = finding.stands ? 'This tells where, not why.' : 'That is no finding.';
  const alike =
    also.length === 0
      ? ''
      : ` The same rolls stand out as ${also.join(' and ')}: these rolls cannot tell ${also.length === 1 ? 'the two' : 'these'} apart.`;
  return `${count}, ${share}; ${chance}. ${verdict}${alike}${left}`;
}
