import { appError } from '../../shared/api/errors.ts';
import { bathKind, type BathKindValue } from '../../shared/api/process-values.ts';
import type { ExtensionRule } from '../../shared/domain/development/extension.ts';
import type { PushTable } from '../../shared/domain/development/push-pull.ts';
import { parseExtension, parsePushTable } from '../../shared/domain/development/rule-text.ts';
import { isUnverified, yours } from '../../shared/domain/development/source.ts';
import type { WorkingLine } from '../../shared/domain/development/working.ts';
import { formatDuration, parseDuration } from '../../shared/units/duration.ts';
import { parseTemperature } from '../../shared/units/temperature.ts';
import { type Ask, type Options, UsageError } from './command.ts';

/** A temperature on the command line in °C: `36.9`, `36.9C`, `98.4F`. @throws {UsageError} */
export function readTemperature(text: string, option: string): number {
  const celsius = parseTemperature(text);
  if (celsius === null) {
    throw new UsageError(`--${option} takes a temperature such as 37.8 or 100F, not “${text}”.`);
  }
  return celsius;
}

/** A temperature option in °C, or null when it is not given. @throws {UsageError} */
export function findTemperature(options: Options, option: string): number | null {
  const text = options.text(option);
  return text === undefined ? null : readTemperature(text, option);
}

/** A length of time in seconds: `3:15`, `90 s`. @throws {UsageError} */
export function readTime(text: string, option: string): number {
  const seconds = parseDuration(text);
  if (seconds === null) throw new UsageError(`--${option} takes a time such as 3:15, not “${text}”.`);
  return seconds;
}

/** A time at a temperature, `9:30@20`. @throws {UsageError} */
export function readTimePoint(text: string, option: string): { seconds: number; celsius: number } {
  const [time, temperature] = text.split('@');
  if (time === undefined || temperature === undefined) {
    throw new UsageError(`--${option} takes a time and its temperature, 9:30@20, not “${text}”.`);
  }
  return { seconds: readTime(time, option), celsius: readTemperature(temperature, option) };
}

const YOURS = yours('Given on the command line');

/** A rule for added time: `2%` a roll, `1=3:15,5=3:30` from a roll on, `none`. @throws {UsageError} */
export function readExtension(text: string): ExtensionRule | null {
  const read = parseExtension(text, YOURS);
  if (!read.ok) throw new UsageError(`--extension takes 2% or 1=3:15,5=3:30, not “${text}”.`);
  return read.value;
}

/** A table of push and pull: `-1=-0:30,1=0:30`, `1=x1.4`, or nothing. @throws {UsageError} */
export function readPushTable(text: string): PushTable | null {
  const read = parsePushTable(text, YOURS);
  if (!read.ok) throw new UsageError(`--push-table takes -1=-0:30,1=0:30 or 1=x1.4, not “${text}”.`);
  return read.value;
}

/** What a bath is: `bleach-fix` and `bleach_fix` are one. @throws {UsageError} */
export function readBathKind(text: string): BathKindValue {
  const read = bathKind.safeParse(text.trim().toLowerCase().replaceAll(/[\s-]/g, '_'));
  if (!read.success) {
    throw new UsageError(`--kind takes ${bathKind.options.join(', ')}, not “${text}”.`);
  }
  return read.data;
}

/** The instant of an option, ISO 8601 or a day (its noon here), or null when not given. @throws {UsageError} */
export function findInstant(options: Options, option: string): string | null {
  const text = options.text(option);
  if (text === undefined) return null;
  const day = /^\d{4}-\d\d-\d\d$/.test(text);
  const instant = new Date(day ? `${text}T12:00:00` : text);
  if (Number.isNaN(instant.getTime())) {
    throw new UsageError(`--${option} takes a day such as 2026-04-20 or an instant, not “${text}”.`);
  }
  return instant.toISOString();
}

/** The id of a bath by name. @throws {AppError} bath_not_found */
export async function bathByName(ask: Ask, name: string): Promise<number> {
  const found = (await ask('baths.list', {})).find((bath) => bath.name === name);
  if (!found) throw appError('bath_not_found', { name });
  return found.id;
}

/** The ids of rolls by number. @throws {AppError} roll_not_found */
export async function rollsByNumber(ask: Ask, numbers: readonly string[]): Promise<number[]> {
  const rolls = [];
  for (const number of numbers) rolls.push(await ask('rolls.byNumber', { number }));
  return rolls.map((roll) => roll.id);
}

/** A line of a sum for scripts. `seconds` is null for what is no time; what nobody vouches for is marked. */
export function lineForScript(line: WorkingLine): {
  text: string;
  seconds: number | null;
  value: number;
  unit: string;
  source: string;
} {
  const { label, formula, value, unit, source } = line;
  return {
    text: `${label}: ${formula}`,
    seconds: unit === 's' ? value : null,
    value,
    unit,
    source: source.kind === 'published' ? source.text : `${source.kind}: ${source.text}`,
  };
}

/** A line of a sum for people. */
export function lineForPeople(line: WorkingLine): string {
  const value = line.unit === 's' ? formatDuration(line.value) : `${round(line.value)} ${line.unit}`.trim();
  const mark = isUnverified(line.source) ? ` (${line.source.kind})` : '';
  return `    ${line.label}: ${line.formula} = ${value}${mark}`;
}

/** A number as it is read: three decimals at the most. */
export function round(value: number): number {
  return Number(value.toFixed(3));
}
