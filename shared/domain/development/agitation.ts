import type { Source } from './source.ts';

/**
 * How the tank is moved in a step, times in seconds. `intermittent`: without rest for the first
 * `firstSeconds`, then for `forSeconds` at every whole multiple of `everySeconds` of the step; `turns` is how
 * often the tank is turned over in one go, where the scheme says so.
 */
export type Agitation =
  | { readonly scheme: 'none'; readonly source: Source }
  | { readonly scheme: 'continuous'; readonly source: Source }
  | {
      readonly scheme: 'intermittent';
      readonly firstSeconds: number;
      readonly everySeconds: number;
      readonly forSeconds: number;
      readonly turns: number | null;
      readonly source: Source;
    };

/** A stretch of a step in which the tank is moved, in seconds from pouring in; `toSeconds` is its end. */
export type AgitationSpan = {
  readonly fromSeconds: number;
  readonly toSeconds: number;
  readonly turns: number | null;
};

/**
 * Pouring out begins this long before the end of a step and belongs to its time.
 * Source: US Navy NAVEDTRA 14209, Fig. 10-18,
 * https://photographytraining.tpub.com/14209/css/Figure-10-18-Arrangement-Of-Materials-For-Processing-Film-266.htm ;
 * US Army SS0514 (drain in the last 10 s of every step),
 * https://armycommunications.tpub.com/SS0514/SS05140049.htm
 */
const POUR_OUT_SECONDS = 10;

/**
 * When to begin pouring out, in seconds from pouring in, for a step of `stepSeconds`. Our choice for steps
 * shorter than twice the pour-out: half of the step, so that the film is covered at least as long as not.
 */
export function pourOutAt(stepSeconds: number): number {
  return Math.max(stepSeconds - POUR_OUT_SECONDS, stepSeconds / 2);
}

/**
 * The stretches of agitation in a step of `stepSeconds`, in order, none reaching into the pouring out. A turn
 * that would follow the opening agitation without a rest is part of it and left out.
 */
export function agitationSpans(agitation: Agitation | null, stepSeconds: number): readonly AgitationSpan[] {
  const end = pourOutAt(stepSeconds);
  if (agitation === null || agitation.scheme === 'none' || end <= 0) return [];
  if (agitation.scheme === 'continuous') return [{ fromSeconds: 0, toSeconds: end, turns: null }];
  const { firstSeconds, everySeconds, forSeconds, turns } = agitation;
  const spans: AgitationSpan[] = [];
  if (firstSeconds > 0) spans.push({ fromSeconds: 0, toSeconds: Math.min(firstSeconds, end), turns: null });
  for (let count = Math.floor(firstSeconds / everySeconds) + 1; count * everySeconds < end; count++) {
    const fromSeconds = count * everySeconds;
    spans.push({ fromSeconds, toSeconds: Math.min(fromSeconds + forSeconds, end), turns });
  }
  return spans;
}
