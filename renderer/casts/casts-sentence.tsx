import type { Stock } from '../../shared/api/methods/film-methods.ts';
import { Select } from '../ui/select.tsx';
import { CAST_AXES, CAST_FACTORS, FACTORS, type CastAxis, type CastFactor } from './cast-axes.ts';

export interface CastsQuestion {
  readonly axis: CastAxis;
  readonly factor: CastFactor;
  readonly stockId: number;
}

export interface CastsSentenceProps {
  readonly question: CastsQuestion;
  readonly stocks: readonly Stock[];
  readonly onQuestion: (question: CastsQuestion) => void;
}

const AXES = (['a', 'b'] as const).map((axis) => ({ value: axis, label: CAST_AXES[axis].label }));
const AGAINST = FACTORS.map((factor) => ({ value: factor, label: CAST_FACTORS[factor].label }));

/** The question as a sentence; its underlined words are the choices. */
export function CastsSentence({ question, stocks, onQuestion }: CastsSentenceProps) {
  return (
    <div className="casts-sentence" role="group" aria-label="The question">
      <span>Cast</span>{' '}
      <Select
        look="sentence"
        label="Cast"
        options={AXES}
        value={question.axis}
        onChange={(axis) => onQuestion({ ...question, axis })}
      />{' '}
      <span>of</span>{' '}
      <Select
        look="sentence"
        label="Stock"
        options={stocks.map(({ id, name }) => ({ value: String(id), label: name }))}
        value={String(question.stockId)}
        onChange={(stockId) => onQuestion({ ...question, stockId: Number(stockId) })}
      />{' '}
      <span>rolls, against</span>{' '}
      <Select
        look="sentence"
        label="Against"
        options={AGAINST}
        value={question.factor}
        onChange={(factor) => onQuestion({ ...question, factor })}
      />
    </div>
  );
}
