import { bathKind, type BathKindValue } from '../../../shared/api/process-values.ts';
import type { Agitation } from '../../../shared/domain/development/agitation.ts';
import type { BathDefaults } from '../../../shared/domain/development/bath-defaults.ts';
import { usualCautions } from '../../../shared/domain/development/cautions.ts';
import type { Process, Step, StepTemperature } from '../../../shared/domain/development/process.ts';
import {
  formatExtension,
  formatPushTable,
  formatTimePoints,
  parseExtension,
  parsePushTable,
  parseTimePoints,
} from '../../../shared/domain/development/rule-text.ts';
import type { Source } from '../../../shared/domain/development/source.ts';
import { ROLL_AREA_CM2 } from '../../../shared/domain/film/film-area.ts';
import { suggestTemperature, USUAL_C } from '../../../shared/domain/development/temperature-question.ts';
import { formatTemperature } from '../../../shared/text/format.ts';
import { formatDuration, parseDuration } from '../../../shared/units/duration.ts';
import { parseTemperature } from '../../../shared/units/temperature.ts';
import { readNumber } from '../read-number.ts';

/** A step as it stands in the fields of the editor: text as typed. */
export interface StepDraft {
  readonly key: string;
  readonly name: string;
  readonly bath: BathKindValue;
  readonly timing: Step['timing'];
  readonly time: string;
  readonly aim: string;
  readonly low: string;
  readonly high: string;
  readonly scheme: Agitation['scheme'] | 'unsaid';
  readonly first: string;
  readonly every: string;
  readonly long: string;
  readonly turns: string;
  readonly points: string;
  readonly push: string;
  /** Rolls of 80 sq in a litre. */
  readonly capacity: string;
  readonly shelf: string;
  readonly extension: string;
  readonly note: string;
}

/** What is wrong with a field, in words. */
export type DraftErrors = Partial<Readonly<Record<keyof StepDraft, string>>>;

const degrees = (celsius: number | null | undefined) =>
  celsius === null || celsius === undefined ? '' : String(Number(celsius.toFixed(2)));

/** The steps of a process as fields. */
export function draftStep(step: Step): StepDraft {
  const { agitation, temperature, bathFacts } = step;
  const moved = agitation?.scheme === 'intermittent' ? agitation : null;
  const capacity = bathFacts?.capacityCm2PerLitre?.value;
  return {
    key: step.key,
    name: step.name,
    bath: step.bath,
    timing: step.timing,
    time: step.time.seconds === null ? '' : formatDuration(step.time.seconds),
    aim: degrees(temperature?.aimC),
    low: degrees(temperature?.lowC),
    high: degrees(temperature?.highC),
    scheme: agitation?.scheme ?? 'unsaid',
    first: String(moved?.firstSeconds ?? 30),
    every: String(moved?.everySeconds ?? 30),
    long: String(moved?.forSeconds ?? 5),
    turns: String(moved?.turns ?? ''),
    points: formatTimePoints(step.timePoints),
    push: formatPushTable(step.push),
    capacity: capacity === undefined ? '' : String(Number((capacity / ROLL_AREA_CM2).toFixed(2))),
    shelf: String(bathFacts?.shelfDays?.value ?? ''),
    extension: formatExtension(bathFacts?.extension ?? null),
    note: step.note ?? '',
  };
}

/** A step that was not there, with a key none of the others has. */
export function addedStep(others: readonly StepDraft[]): StepDraft {
  const keys = new Set(others.map(({ key }) => key));
  let number = others.length + 1;
  while (keys.has(`step-${number}`)) number += 1;
  return draftStep({
    key: `step-${number}`,
    name: '',
    bath: bathKind.enum.water,
    time: { seconds: null, source: { kind: 'yours', text: '' } },
    timing: 'minimum',
    temperature: null,
    agitation: null,
    timePoints: [],
    push: null,
    cautions: [],
    note: null,
  });
}

const ANY: Source = { kind: 'yours', text: '' };

function temperatureError(text: string): string | undefined {
  if (text.trim() === '') return undefined;
  const celsius = parseTemperature(text);
  if (celsius === null) return 'a temperature such as 37.8 or 100 °F';
  // A unit typed behind it says that it is meant.
  const meantC = /[cf]\s*$/i.test(text) ? null : suggestTemperature(celsius, USUAL_C.bath);
  return meantC === null ? undefined : `Is ${formatTemperature(meantC)} meant? Type ${text.trim()} C if not.`;
}

function numberError(text: string): string | undefined {
  const number = readNumber(text);
  return text.trim() === '' || (number !== null && number >= 0) ? undefined : 'a number such as 8';
}

/** What cannot be read of a step; empty when all can. */
export function findDraftErrors(draft: StepDraft): DraftErrors {
  const isMoved = draft.scheme === 'intermittent';
  const errors: Record<string, string | undefined> = {
    name: draft.name.trim() === '' ? 'a step needs a name' : undefined,
    time: draft.time.trim() !== '' && parseDuration(draft.time) === null ? 'a time such as 3:15' : undefined,
    aim: temperatureError(draft.aim),
    low: temperatureError(draft.low),
    high: temperatureError(draft.high),
    first: isMoved ? numberError(draft.first) : undefined,
    every: isMoved ? numberError(draft.every) : undefined,
    long: isMoved ? numberError(draft.long) : undefined,
    turns: isMoved ? numberError(draft.turns) : undefined,
    points: parseTimePoints(draft.points, ANY).ok ? undefined : 'rows such as 8:00@30, 2:00@45',
    push: parsePushTable(draft.push, ANY).ok ? undefined : 'rows such as -1=-0:30, 1=0:30, or 1=x1.4',
    capacity: numberError(draft.capacity),
    shelf: numberError(draft.shelf),
    extension: parseExtension(draft.extension, ANY).ok ? undefined : '2% or a table such as 1=3:15, 5=3:30',
  };
  return Object.fromEntries(
    Object.entries(errors).flatMap(([field, error]) => (error ? [[field, error]] : [])),
  );
}

function temperatureOf(draft: StepDraft, was: Step | null, source: Source): StepTemperature | null {
  const before = was === null ? null : draftStep(was);
  const same =
    before !== null && (['aim', 'low', 'high'] as const).every((field) => draft[field] === before[field]);
  if (same) return was?.temperature ?? null;
  const [aimC, lowC, highC] = [draft.aim, draft.low, draft.high].map(parseTemperature);
  if ((aimC ?? lowC ?? highC ?? null) === null) return null;
  return { aimC: aimC ?? null, lowC: lowC ?? null, highC: highC ?? null, source };
}

function agitationOf(draft: StepDraft, was: Step | null, source: Source): Agitation | null {
  const before = was === null ? null : draftStep(was);
  const fields = ['scheme', 'first', 'every', 'long', 'turns'] as const;
  if (before !== null && fields.every((field) => draft[field] === before[field]))
    return was?.agitation ?? null;
  if (draft.scheme === 'unsaid') return null;
  if (draft.scheme !== 'intermittent') return { scheme: draft.scheme, source };
  const turns = readNumber(draft.turns);
  return {
    scheme: 'intermittent',
    firstSeconds: readNumber(draft.first) ?? 0,
    everySeconds: readNumber(draft.every) ?? 0,
    forSeconds: readNumber(draft.long) ?? 0,
    turns: turns === null || turns < 1 ? null : Math.round(turns),
    source,
  };
}

function bathFactsOf(draft: StepDraft, was: Step | null, source: Source): BathDefaults | undefined {
  const before = was === null ? null : draftStep(was);
  const known = was?.bathFacts;
  const [rolls, days] = [readNumber(draft.capacity), readNumber(draft.shelf)];
  const rule = parseExtension(draft.extension, source);
  const facts: BathDefaults = {
    capacityCm2PerLitre:
      draft.capacity === before?.capacity
        ? (known?.capacityCm2PerLitre ?? null)
        : rolls === null
          ? null
          : { value: rolls * ROLL_AREA_CM2, source },
    shelfDays:
      draft.shelf === before?.shelf
        ? (known?.shelfDays ?? null)
        : days === null
          ? null
          : { value: days, source },
    extension:
      draft.extension === before?.extension ? (known?.extension ?? null) : rule.ok ? rule.value : null,
  };
  const says = facts.capacityCm2PerLitre ?? facts.shelfDays ?? facts.extension;
  return says === null ? undefined : facts;
}

/** The step that the fields say, under `source`; what was left as it was keeps its own. */
export function stepOfDraft(draft: StepDraft, was: Step | null, source: Source): Step {
  const before = was === null ? null : draftStep(was);
  const points = parseTimePoints(draft.points, source);
  const push = parsePushTable(draft.push, source);
  const bathFacts = bathFactsOf(draft, was, source);
  return {
    key: draft.key,
    name: draft.name.trim(),
    bath: draft.bath,
    timing: draft.timing,
    time:
      was !== null && draft.time === before?.time ? was.time : { seconds: parseDuration(draft.time), source },
    temperature: temperatureOf(draft, was, source),
    agitation: agitationOf(draft, was, source),
    timePoints:
      was !== null && draft.points === before?.points ? was.timePoints : points.ok ? points.value : [],
    push: was !== null && draft.push === before?.push ? was.push : push.ok ? push.value : null,
    cautions: was !== null && was.bath === draft.bath ? was.cautions : usualCautions(draft.bath),
    note: draft.note.trim() === '' ? null : draft.note.trim(),
    ...(bathFacts === undefined ? {} : { bathFacts }),
  };
}

/** The process that the fields say. */
export function processOfDraft(
  process: Process,
  name: string,
  note: string,
  steps: readonly StepDraft[],
  source: Source,
): Process {
  return {
    ...process,
    name: name.trim(),
    note: note.trim() === '' ? null : note.trim(),
    steps: steps.map((draft) =>
      stepOfDraft(draft, process.steps.find(({ key }) => key === draft.key) ?? null, source),
    ),
  };
}
