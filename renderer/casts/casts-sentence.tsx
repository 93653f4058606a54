import type { Stock } from '../../shared/api/methods/film-methods.ts';
import { MEASURES } from '../../shared/domain/colour/logged-roll.ts';
import { MEASURE_WORDS } from '../../shared/text/describe-trend.ts';
import { Select } from '../ui/select.tsx';
import { FACTORS, factorLabel } from './cast-axes.ts';
import type { CastsQuestion } from './casts-question.ts';

export interface CastsSentenceProps {
  readonly question: CastsQuestion;
  readonly stocks: readonly Stock[];
  readonly onQuestion: (question: CastsQuestion) => void;
}

const MEASURED = MEASURES.map((measure) => ({
  value: measure,
  label: measure === 'fog' ? 'Fog of the base' : `Cast ${MEASURE_WORDS[measure].label}`,
}));
const AGAINST = FACTORS.map((factor) => ({ value: factor, label: factorLabel(factor) }));
const PER = [
  { value: 'roll', label: 'rolls' },
  { value: 'development', label: 'developments' },
] as const;

/** The question as a sentence; its underlined words are the choices. */
export function CastsSentence({ question, stocks, onQuestion }: CastsSentenceProps) {
  return (
    <div className="casts-sentence" role="group" aria-label="The question">
      <Select
        look="sentence"
        label="Measured"
        options={MEASURED}
        value={question.measure}
        onChange={(measure) => onQuestion({ ...question, measure })}
      />{' '}
      <span>of</span>{' '}
      <Select
        look="sentence"
        label="Stock"
        options={[
          ...stocks.map(({ id, name }) => ({ value: String(id), label: name })),
          { value: 'all', label: 'every stock’s' },
        ]}
        value={question.stockId === null ? 'all' : String(question.stockId)}
        onChange={(stock) => onQuestion({ ...question, stockId: stock === 'all' ? null : Number(stock) })}
      />{' '}
      <Select
        look="sentence"
        label="Each dot"
        options={PER}
        value={question.per}
        onChange={(per) => onQuestion({ ...question, per })}
      />
      <span>, against</span>{' '}
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
