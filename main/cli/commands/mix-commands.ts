import { appError } from '../../../shared/api/errors.ts';
import { dilute, parseDilution } from '../../../shared/domain/development/dilution.ts';
import { driftFromReadings, driftOver } from '../../../shared/domain/development/tank-drift.ts';
import { suggestTemperature, USUAL_C } from '../../../shared/domain/development/temperature-question.ts';
import { mixWater } from '../../../shared/domain/development/water-mix.ts';
import type { WorkedOrNot } from '../../../shared/domain/development/working.ts';
import { describeMixReason, type MixReason } from '../../../shared/text/describe-mix.ts';
import { formatTemperature } from '../../../shared/text/format.ts';
import { C41_DEVELOPER_C } from '../../../shared/domain/development/meant-temperature.ts';
import { type Answer, type Command, type Options, UsageError } from '../command.ts';
import {
  findTemperature,
  lineForPeople,
  lineForScript,
  readTemperature,
  readTime,
  round,
} from '../development-words.ts';

const text = { type: 'string' } as const;
const flag = { type: 'boolean' } as const;

/** The result of a sum. @throws {AppError} value_not_valid with the reason in words */
function required<Value, Reason extends MixReason>(worked: WorkedOrNot<Value, Reason>, value: string) {
  if (worked.ok) return worked.value;
  const reason = describeMixReason(worked.reason);
  throw appError('value_not_valid', { field: 'sum', value, reason });
}

function needNumber(options: Options, name: string): number {
  options.need(name);
  const value = options.number(name);
  if (value === undefined) throw new UsageError(`--${name} is needed.`);
  return value;
}

/** A temperature option in °C. @throws {AppError} temperature_doubtful where another is probably meant */
function needTemperature(options: Options, name: string, usual: keyof typeof USUAL_C): number {
  const typed = options.need(name);
  const celsius = readTemperature(typed, name);
  const meantC = options.flag('sure') ? null : suggestTemperature(celsius, USUAL_C[usual]);
  if (meantC !== null) {
    throw appError('temperature_doubtful', { typed: `${typed} °C`, meant: formatTemperature(meantC) });
  }
  return celsius;
}

function answerDilution(options: Options): Answer {
  const typed = options.need('dilution');
  const parsed = parseDilution(typed);
  if (!parsed.ok) {
    const reason = describeMixReason(parsed.reason);
    throw appError('value_not_valid', { field: 'dilution', value: typed, reason });
  }
  const volumeMl = needNumber(options, 'volume');
  const { value, lines } = required(dilute(parsed.value, volumeMl), `${volumeMl} ml`);
  const { concentratesMl, waterMl } = value;
  const [only] = concentratesMl;
  return {
    json: {
      concentrateMl: concentratesMl.length === 1 ? only : concentratesMl,
      waterMl,
      lines: lines.map(lineForScript),
    },
    lines: lines.map(lineForPeople),
  };
}

function answerWater(options: Options): Answer {
  const [hot, cold, target] = [
    needTemperature(options, 'hot', 'hot'),
    needTemperature(options, 'cold', 'cold'),
    needTemperature(options, 'target', 'bath'),
  ];
  const volumeMl = needNumber(options, 'volume');
  const worked = mixWater(hot, cold, target, volumeMl);
  const { value, lines } = required(worked, `${hot} and ${cold} °C to ${target} °C, ${volumeMl} ml`);
  return {
    json: { hotMl: value.hotMl, coldMl: value.coldMl, lines: lines.map(lineForScript) },
    lines: lines.map(lineForPeople),
  };
}

const WATER_OPTIONS = { hot: text, cold: text, target: text, volume: text, sure: flag };

const MIX: Command = {
  name: 'mix',
  usage: '--dilution 1+9 --volume 600',
  summary: 'how much concentrate and water; or hot and cold water',
  options: { dilution: text, ...WATER_OPTIONS },
  takes: [0, 0],
  opensArchive: false,
  run: ({ options }) =>
    Promise.resolve().then(() =>
      options.text('hot') === undefined ? answerDilution(options) : answerWater(options),
    ),
};

const WATER: Command = {
  name: 'water',
  usage: '--hot 55 --cold 12 --target 39 --volume 2000',
  summary: 'how much hot and cold water give a temperature',
  options: WATER_OPTIONS,
  takes: [0, 0],
  opensArchive: false,
  run: ({ options }) => Promise.resolve().then(() => answerWater(options)),
};

function driftByReadings(start: number, end: number, seconds: number, room: number, target: number) {
  const worked = driftFromReadings(start, end, seconds, room, target);
  return required(worked, `${start} to ${end} °C in a room of ${room} °C`);
}

const DRIFT: Command = {
  name: 'drift',
  usage: '--start 38.5 --end 36.9 | --constant 0.03 --after 3:15 --room 21',
  summary: 'what a cooling tank does over a step',
  options: {
    start: text,
    end: text,
    constant: text,
    after: text,
    minutes: text,
    room: text,
    target: text,
    sure: flag,
  },
  takes: [0, 0],
  opensArchive: false,
  run: async ({ options }) => {
    const start = needTemperature(options, 'start', 'bath');
    const room = needTemperature(options, 'room', 'room');
    const target = findTemperature(options, 'target') ?? C41_DEVELOPER_C;
    const after = options.text('after');
    const seconds = after === undefined ? needNumber(options, 'minutes') * 60 : readTime(after, 'after');
    const constant = options.number('constant');
    const { value, lines } =
      constant === undefined
        ? driftByReadings(start, needTemperature(options, 'end', 'bath'), seconds, room, target)
        : required(
            driftOver(start, room, constant, seconds, target),
            `${start} °C, ${constant} / min in a room of ${room} °C`,
          );
    const { meanC, endC, startForMeanC } = value;
    return Promise.resolve({
      json: { meanC, endC, startForMeanC, suggestedStartC: startForMeanC, lines: lines.map(lineForScript) },
      lines: [
        ...lines.map(lineForPeople),
        `Mean ${round(meanC)} °C; start at ${round(startForMeanC)} °C for a mean of ${target} °C.`,
      ],
    });
  },
};

/** Sums that need no archive. */
export const MIX_COMMANDS: readonly Command[] = [MIX, WATER, DRIFT];
