import type { Stock } from '../../shared/api/methods/film-methods.ts';
import { MEASURES, type Measure, type Per } from '../../shared/domain/colour/logged-roll.ts';
import type { Route } from '../state/route.ts';
import { FACTORS, type CastFactor } from './cast-axes.ts';

/** What is asked of casts. */
export interface CastsQuestion {
  readonly measure: Measure;
  readonly factor: CastFactor;
  /** Null for every stock. */
  readonly stockId: number | null;
  readonly per: Per;
}

/** The question in the address; the stock with the most rolls where none is named. Null without any stock. */
export function readQuestion(params: Route['params'], stocks: readonly Stock[]): CastsQuestion | null {
  const most = stocks.toSorted((one, other) => other.rolls - one.rolls)[0];
  if (!most) return null;
  const named = stocks.find(({ id }) => String(id) === params['stock']);
  return {
    measure:
      MEASURES.find((measure) => measure === params['of']) ?? (most.process === 'bw' ? 'fog' : 'deltaA'),
    factor: FACTORS.find((factor) => factor === params['against']) ?? 'temperatureErrorC',
    stockId: params['stock'] === 'all' ? null : (named ?? most).id,
    per: params['per'] === 'development' ? 'development' : 'roll',
  };
}
