import type { BathEntry } from '../../../shared/api/methods/bath-methods.ts';
import type { DevelopmentPlan } from '../../../shared/api/methods/development-methods.ts';
import { CAUTION_RULE } from '../../../shared/domain/development/cautions.ts';
import { checkReady } from '../../../shared/domain/development/ready-check.ts';
import { describeReady } from '../../../shared/text/describe-development.ts';
import { useCautions } from '../cautions.tsx';
import { BigButton } from './big-button.tsx';

export interface ReadyCheckProps {
  readonly plan: DevelopmentPlan;
  readonly baths: readonly BathEntry[];
  /** The developer as measured before the first pour, °C. */
  readonly developerC: number | null;
  /** `YYYY-MM-DD` where the user is. */
  readonly today: string;
  readonly onPour: () => void;
}

/** What to settle before the first pour: temperature and baths, and the cautions that were not read yet. */
export function ReadyCheck({ plan, baths, developerC, today, onPour }: ReadyCheckProps) {
  const { cautions, markRead } = useCautions(plan.steps.flatMap((step) => step.cautions));
  const developer = plan.steps.find((step) => step.key === plan.developerKey);
  const questions = checkReady(
    { temperature: developer?.temperature ?? null, developerC },
    plan.steps.flatMap((step) => {
      const bath = baths.find(({ id }) => id === step.uses?.bathId);
      if (!bath) return [];
      const known = {
        mixedFirstDay: bath.mixed?.earliest ?? null,
        mixedLastDay: bath.mixed?.latest ?? null,
        capacityCm2: bath.capacityCm2,
        shelfDays: bath.shelfDays,
        usedBeforeCm2: bath.usedBeforeCm2,
        state: bath.condition,
        endedAt: bath.endedAt,
      };
      return [{ name: bath.name, bath: known, reckoning: bath, isSpent: bath.spent }];
    }),
    plan.weightedAreaCm2,
    today,
  );
  const stopped = questions.some((question) => question.stops);
  const [first] = plan.steps;

  if (cautions.length > 0) {
    return (
      <section className="run-ready" aria-labelledby="run-cautions">
        <h1 id="run-cautions">Before you pour</h1>
        <ul className="run-cautions">
          {cautions.map((caution) => (
            <li key={caution.key}>
              <strong>{caution.title}.</strong> {caution.text}
            </li>
          ))}
        </ul>
        <p className="run-rule">{CAUTION_RULE}</p>
        <BigButton main keys="Space" onPress={markRead}>
          Read
        </BigButton>
      </section>
    );
  }
  return (
    <section className="run-ready" aria-labelledby="run-ready">
      <h1 id="run-ready">Ready?</h1>
      <ul className="run-questions" aria-label="To settle before the first pour">
        {questions.length === 0 ? <li>Developer and baths are as they should be.</li> : null}
        {questions.map((question) => (
          <li key={`${question.code}-${'bath' in question ? question.bath : ''}`}>
            {describeReady(question)}
          </li>
        ))}
        {plan.warnings
          .filter((warning) => !questions.some((question) => question.code === warning.code))
          .map((warning) => (
            <li key={warning.text}>{warning.text}</li>
          ))}
      </ul>
      <ul className="run-ready-baths" aria-label="Baths">
        {plan.steps.map((step) => {
          const bath = baths.find(({ id }) => id === step.uses?.bathId);
          return bath ? (
            <li key={step.key}>
              {bath.name}: {bath.words}
            </li>
          ) : null;
        })}
      </ul>
      {stopped ? (
        <p role="alert">A bath of this plan must not be used. Stop this run and plan it with another.</p>
      ) : (
        <BigButton main keys="Space" onPress={onPour}>
          Pour in: {first?.name ?? ''}
        </BigButton>
      )}
    </section>
  );
}
