import type { Agitation } from '../domain/development/agitation.ts';
import type { BathKind, StepTemperature } from '../domain/development/process.ts';
import { formatTemperature } from './format.ts';

/** How the tank is moved, in words: `first 30 s without rest, then 4 turns each 30 s`. */
export function describeAgitation(agitation: Agitation | null, bath: BathKind): string {
  if (agitation === null) return '';
  if (agitation.scheme === 'none')
    return bath === 'water' ? 'running water, or changes of it' : 'left to stand';
  if (agitation.scheme === 'continuous') return 'moved all the time';
  const { firstSeconds, everySeconds, turns, forSeconds } = agitation;
  const each = turns === null ? `${forSeconds} s` : `${turns} turns`;
  const first = firstSeconds > 0 ? `first ${firstSeconds} s without rest, then ` : '';
  return `${first}${each} each ${everySeconds} s`;
}

/** How warm a step is to be, in words: `37.8 °C, 0.15 either way`; `as the room` where nothing is said. */
export function describeWarmth(temperature: StepTemperature | null): string {
  const { aimC = null, lowC = null, highC = null } = temperature ?? {};
  if (aimC === null) {
    if (lowC === null && highC === null) return 'as the room';
    if (lowC === null || highC === null) {
      return lowC === null
        ? `at most ${formatTemperature(highC ?? 0)}`
        : `at least ${formatTemperature(lowC)}`;
    }
    return `${lowC.toFixed(1)} to ${formatTemperature(highC)}`;
  }
  if (lowC === null || highC === null) return formatTemperature(aimC);
  const [under, over] = [aimC - lowC, highC - aimC].map((size) => Number(size.toFixed(2)));
  return under === over
    ? `${formatTemperature(aimC)}, ${under} either way`
    : `${formatTemperature(aimC)}, ${lowC.toFixed(1)} to ${highC.toFixed(1)}`;
}
