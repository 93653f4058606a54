import type { BathKind, ProcessFault } from '../domain/development/process.ts';
import type { PlanFailure, PlanWarning } from '../domain/development/plan-development.ts';
import type { ReadyQuestion } from '../domain/development/ready-check.ts';
import type { LoadRefusal } from '../domain/development/tank-load.ts';
import type { TemperatureVerdict } from '../domain/development/planned-and-actual.ts';
import { ROLL_AREA_CM2 } from '../domain/film/film-area.ts';
import { formatDuration } from '../units/duration.ts';
import { formatTemperature } from './format.ts';

/** The baths as people call them. */
export const BATH_NAMES: Readonly<Record<BathKind, string>> = {
  water: 'water',
  prebath: 'prebath',
  developer: 'developer',
  first_developer: 'first developer',
  colour_developer: 'colour developer',
  stop: 'stop bath',
  reversal: 'reversal bath',
  pre_bleach: 'pre-bleach',
  bleach: 'bleach',
  fixer: 'fixer',
  bleach_fix: 'bleach-fix',
  wetting_agent: 'wetting agent',
  stabiliser: 'stabiliser',
  final_rinse: 'final rinse',
};

const FAULTS: Readonly<Record<ProcessFault, string>> = {
  no_steps: 'A process needs at least one step.',
  name_missing: 'The process and each of its steps need a name.',
  step_key_twice: 'Two steps have the same key.',
  time_not_positive: 'A time is not longer than nothing.',
  time_too_long: 'A step takes more than a day.',
  temperature_not_real: 'A temperature is not between 0 and 100 °C.',
  tolerance_upside_down: 'The lowest temperature lies above the highest.',
  points_not_falling: 'Times have to get shorter as it gets warmer, and no temperature may stand twice.',
  agitation_impossible: 'The tank would have to be moved longer than there is time between.',
  push_not_real: 'In a table of push and pull every shift stands once, and each leaves some time.',
  bath_facts_not_real:
    'Capacity and days are more than nothing; a table of added time starts at roll 1 and never gets shorter.',
};

/** Why a process cannot be used as it was entered. */
export function describeProcessFault(fault: ProcessFault): string {
  return FAULTS[fault];
}

function stops(value: string | number): string {
  const number = Number(value);
  const size = Math.abs(number);
  if (number === 0) return 'no shift';
  return `${number < 0 ? '−' : '+'}${size} ${size === 1 ? 'stop' : 'stops'}`;
}

/** Words joined as in speech: `a, b and c`. */
function join(words: readonly string[]): string {
  return words.length < 2 ? words.join() : `${words.slice(0, -1).join(', ')} and ${words.at(-1) ?? ''}`;
}

/** Why rolls cannot share a tank, as a sentence. `names` gives processes as people write them. */
export function describeLoadRefusal(refusal: LoadRefusal, names: (process: string) => string): string {
  const { code, values } = refusal;
  const [asked = 0, there = 0] = values;
  switch (code) {
    case 'no_rolls':
      return 'No roll was chosen.';
    case 'process_differs':
      return `The rolls want different processes: ${join(values.map((value) => names(String(value))))}.`;
    case 'push_differs':
      return `The rolls want different developments: ${join(values.map(stops))}.`;
    case 'time_differs':
      return `The rolls want different developer times: ${join(values.map(String))}.`;
    case 'film_factor_differs':
      return `The rolls use the fixer at different speeds: × ${join(values.map(String))}.`;
    case 'too_many_reels':
      return `${asked} rolls do not go into a tank for ${there}.`;
    case 'volume_over_tank':
      return `${asked} ml would be needed to cover the reels; the tank holds ${there} ml.`;
  }
}

function degrees(range: PlanFailure['range']): string {
  return range === null
    ? 'what is known'
    : `${formatTemperature(range.lowC)} to ${formatTemperature(range.highC)}`;
}

/** Why a step has no time, as a sentence. `step` is its name. */
export function describePlanFailure({ code, range }: PlanFailure, step: string | null): string {
  const name = step ?? 'The developer';
  switch (code) {
    case 'no_developer':
      return 'The process has no developer.';
    case 'time_missing':
      return `${name}: the process leaves the time to you. Give the time of your film and developer, with its temperature.`;
    case 'temperature_not_real':
      return `${name}: that is no temperature.`;
    case 'below_range':
      return `${name}: that is colder than any time that is known, ${degrees(range)}. Times are not guessed beyond it.`;
    case 'above_range':
      return `${name}: that is warmer than any time that is known, ${degrees(range)}. Times are not guessed beyond it.`;
    case 'outside_tolerance':
      return `${name}: the one time that is known holds from ${degrees(range)} and nowhere else.`;
    case 'push_table_missing':
      return `${name}: the process says nothing about push and pull.`;
    case 'shift_outside_table':
      return `${name}: the table of push and pull does not go so far.`;
    case 'shift_not_real':
      return `${name}: that is no shift.`;
    case 'push_leaves_no_time':
      return `${name}: pulled so far, no time is left.`;
    case 'rolls_not_real':
      return `${name}: the number of rolls before is not real.`;
    case 'extension_rule_not_real':
      return `${name}: the rule for added time does not work: it starts at roll 1, and times do not fall.`;
  }
}

/** What to know before the first pour. */
export function describePlanWarning({ code }: PlanWarning, step: string): string {
  return code === 'short_development'
    ? `${step}: shorter than 5 minutes, the film may develop unevenly.`
    : `${step}: more than 2.8 °C from the bath before it; the gelatine may wrinkle.`;
}

/** What stands against the first pour. */
export function describeReady(question: ReadyQuestion): string {
  switch (question.code) {
    case 'developer_not_measured':
      return 'The developer has not been measured.';
    case 'developer_off_temperature':
      return `The developer has ${formatTemperature(question.celsius)} and is off its tolerance.`;
    case 'bath_discarded':
      return `“${question.bath}” has been discarded.`;
    case 'bath_spoilt':
      return `“${question.bath}” is spoilt.`;
    case 'fixer_spent':
      return `“${question.bath}” took twice as long to clear a scrap of film as when it was fresh: it is spent.`;
    case 'bath_past_shelf_life':
      return `“${question.bath}” is ${question.days} ${question.days === 1 ? 'day' : 'days'} past its shelf life.`;
    case 'bath_over_capacity':
      return `“${question.bath}” lacks ${(question.overCm2 / ROLL_AREA_CM2).toFixed(1)} rolls of capacity for this load.`;
  }
}

const VERDICTS: Readonly<Record<TemperatureVerdict, string>> = {
  within: 'within tolerance',
  below: 'below tolerance',
  above: 'above tolerance',
  both_sides: 'below and above tolerance',
  not_measured: 'not measured',
  no_tolerance: 'no tolerance given',
};

/** Where temperatures lie against a tolerance. */
export function describeVerdict(verdict: TemperatureVerdict): string {
  return VERDICTS[verdict];
}

const COLUMN_NAMES: Readonly<Record<string, string>> = {
  date_edtf: 'day',
  push_stops: 'push',
  developer_seconds: 'developer time',
  developer_temp_c: 'developer, mean',
  who: 'who',
  place: 'where',
  note: 'note',
};

function columnValue(column: string, value: string | null): string {
  if (value === null || value === '') return 'nothing';
  if (column === 'developer_seconds') return formatDuration(Number(value));
  if (column === 'developer_temp_c') return formatTemperature(Number(value));
  return column === 'push_stops' ? stops(value) : `“${value}”`;
}

/** A later correction in words, `developer, mean: 36.9 °C, now 37.9 °C`; null for what says the same twice. */
export function describeCorrection(correction: {
  readonly column: string;
  readonly before: string | null;
  readonly after: string | null;
}): string | null {
  const { column, before, after } = correction;
  const name = COLUMN_NAMES[column];
  if (name === undefined) return null;
  return `${name}: ${columnValue(column, before)}, now ${columnValue(column, after)}`;
}
