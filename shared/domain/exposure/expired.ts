import type { Checked } from '../checked.ts';
import { accept, refuse } from '../checked.ts';
import type { Source } from '../development/source.ts';
import { reported, ruleOfThumb } from '../development/source.ts';
import { isFilmSpeed, nearestPrintedIso } from './film-speed.ts';

/** Where film is kept. */
export type StoragePlace = 'room' | 'fridge' | 'freezer';

/** A kind of film as far as ageing goes. */
export type AgeingKind = 'colour negative' | 'black-and-white' | 'slide';

/** Stops of speed lost per ten years past the date, by the place; the user may change every figure. */
export type AgeingRule = {
  readonly stopsPerDecade: Readonly<Record<StoragePlace, number>>;
  readonly source: Source;
};

/**
 * The rules offered until the user makes his own. Room, colour negative: one stop per decade, as two accounts have it;
 * the others are common practice without a source.
 */
export const AGEING_RULES: Readonly<Record<AgeingKind, AgeingRule>> = {
  'colour negative': {
    stopsPerDecade: { room: 1, fridge: 0.5, freezer: 0 },
    source: reported(
      'One stop per decade: sidekickcamera.com/blogs/news/experimenting-with-expired-film; half when refrigerated and none when frozen is common practice, no source',
    ),
  },
  'black-and-white': {
    stopsPerDecade: { room: 0.5, fridge: 0.25, freezer: 0 },
    source: ruleOfThumb('About one stop per two decades, half of that refrigerated, none frozen'),
  },
  slide: {
    stopsPerDecade: { room: 0, fridge: 0, freezer: 0 },
    source: ruleOfThumb('Slide film has little latitude: it is not overexposed to make up for its age'),
  },
};

/** The kind of film that a process of the archive (`c41`, `bw`, `e6`, `ecn2`) is for; null for any other process. */
export function findAgeingKind(process: string): AgeingKind | null {
  const kinds: Readonly<Record<string, AgeingKind>> = {
    c41: 'colour negative',
    ecn2: 'colour negative',
    bw: 'black-and-white',
    e6: 'slide',
  };
  return kinds[process] ?? null;
}

/** A time past the expiry date that the film lay in one place. */
export type StoredPeriod = { readonly place: StoragePlace; readonly years: number };

/** A suggested index with the sum that led to it. */
export type IndexSuggestion = {
  /** Exactly by the rule. */
  readonly exposureIndex: number;
  /** The nearest speed that a dial has. */
  readonly printedIndex: number;
  readonly stops: number;
  /** The sum, one line per step. */
  readonly steps: readonly string[];
};

/** What the figures cannot be. */
export type SuggestionReason = 'speed_out_of_range' | 'years_out_of_range' | 'rule_out_of_range';

/** Years past the date that are still a film's: photographic film is younger than that. Our choice. */
const MOST_YEARS = 130;

/** Most stops per decade a rule may have. Our choice: more is a slip of the key. */
const MOST_STOPS_PER_DECADE = 5;

function formatFigure(value: number, decimals: number): string {
  return String(Number(value.toFixed(decimals)));
}

function formatYears(years: number): string {
  const figure = formatFigure(years, 1);
  return figure === '1' ? '1 year' : `${figure} years`;
}

function formatStops(stops: number): string {
  const figure = formatFigure(stops, 2);
  return figure === '1' ? '1 stop' : `${figure} stops`;
}

function isWithin(value: number, most: number): boolean {
  return Number.isFinite(value) && value >= 0 && value <= most;
}

/**
 * An exposure index for film past its date: EI = ISO / 2^(Σ k · years / 10), k in stops per decade by the place it lay.
 * A rule of thumb, not a measurement. No period, or no years, means the film is not past its date: EI = ISO.
 * Source: sidekickcamera.com/blogs/news/experimenting-with-expired-film; christopherstoll.org (2022-04-09).
 */
export function suggestExposureIndex(
  iso: number,
  periods: readonly StoredPeriod[],
  rule: AgeingRule,
): Checked<IndexSuggestion, SuggestionReason> {
  if (!isFilmSpeed(iso)) return refuse('speed_out_of_range');
  if (!Object.values(rule.stopsPerDecade).every((stops) => isWithin(stops, MOST_STOPS_PER_DECADE))) {
    return refuse('rule_out_of_range');
  }
  const allYears = periods.reduce((sum, period) => sum + period.years, 0);
  if (!periods.every((period) => isWithin(period.years, MOST_YEARS)) || !isWithin(allYears, MOST_YEARS)) {
    return refuse('years_out_of_range');
  }
  const losses = periods.map((period) => {
    const stopsPerDecade = rule.stopsPerDecade[period.place];
    return { ...period, stopsPerDecade, stops: (stopsPerDecade * period.years) / 10 };
  });
  const stops = losses.reduce((sum, loss) => sum + loss.stops, 0);
  const exposureIndex = iso / 2 ** stops;
  const steps = losses.map(
    (loss) =>
      `${formatYears(loss.years)} past the date (${loss.place}): ${formatStops(loss.stopsPerDecade)} per decade × ${formatFigure(loss.years / 10, 2)} = ${formatStops(loss.stops)}`,
  );
  return accept({
    exposureIndex,
    printedIndex: nearestPrintedIso(exposureIndex),
    stops,
    steps: [
      ...steps,
      `ISO ${formatFigure(iso, 1)} ÷ 2^${formatFigure(stops, 2)} = EI ${formatFigure(exposureIndex, 1)}`,
    ],
  });
}
