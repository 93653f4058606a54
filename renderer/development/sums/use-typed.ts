import { z } from 'zod';
import { suggestTemperature } from '../../../shared/domain/development/temperature-question.ts';
import { parseDuration } from '../../../shared/units/duration.ts';
import { parseTemperature } from '../../../shared/units/temperature.ts';
import { useRemembered } from '../../state/remembered.ts';
import { readNumber } from '../read-number.ts';

/** What was typed into the fields of a sum; it stays when another sum is looked at, and over a restart. */
export interface Typed<Name extends string> {
  text(name: Name): string;
  set(name: Name, text: string): void;
  setAll(texts: Readonly<Record<string, string>>): void;
  /** Null for nothing or what is no number. */
  number(name: Name): number | null;
  seconds(name: Name): number | null;
  /** °C; null for what is none, and for what is probably another one until somebody says that it is meant. */
  celsius(name: Name, usualC: readonly number[]): number | null;
  /** What was probably meant, °C; null when there is nothing to ask. */
  suggestion(name: Name, usualC: readonly number[]): number | null;
  /** Says that the temperature is meant as it stands. */
  insist(name: Name): void;
}

const texts = z.record(z.string(), z.string());

function parseTexts(json: string): string | null {
  try {
    return texts.safeParse(JSON.parse(json)).success ? json : null;
  } catch {
    // Not ours, or from another time: the first values serve.
    return null;
  }
}

/** The fields of the sum `sum`; `first` is what stands there before anybody typed. */
export function useTyped<Name extends string>(
  sum: string,
  first: Readonly<Record<Name, string>>,
): Typed<Name> {
  const [json, setJson] = useRemembered(`sums.${sum}`, '{}', parseTexts);
  const kept = texts.parse(JSON.parse(json));
  const text = (name: Name) => kept[name] ?? first[name];
  const put = (changes: Readonly<Record<string, string>>) => setJson(JSON.stringify({ ...kept, ...changes }));
  const suggestion = (name: Name, usualC: readonly number[]) => {
    const typed = text(name);
    const celsius = parseTemperature(typed);
    return celsius === null || kept[`${name}, meant`] === typed ? null : suggestTemperature(celsius, usualC);
  };
  return {
    text,
    set: (name, value) => put({ [name]: value }),
    setAll: put,
    number: (name) => readNumber(text(name)),
    seconds: (name) => parseDuration(text(name)),
    suggestion,
    celsius: (name, usualC) => (suggestion(name, usualC) === null ? parseTemperature(text(name)) : null),
    insist: (name) => put({ [`${name}, meant`]: text(name) }),
  };
}
