import { formatExtension, parseExtension } from '../../../shared/domain/development/rule-text.ts';
import { planStepTime } from '../../../shared/domain/development/plan-step.ts';
import { yours } from '../../../shared/domain/development/source.ts';
import { USUAL_C } from '../../../shared/domain/development/temperature-question.ts';
import { curveRange } from '../../../shared/domain/development/time-at-temperature.ts';
import { findTimeCurve } from '../../../shared/domain/development/time-curve.ts';
import { describePlanFailure } from '../../../shared/text/describe-development.ts';
import { formatDuration } from '../../../shared/units/duration.ts';
import { useArchive } from '../../api/use-query.ts';
import { FIRST_STEP, StepFields, stepOfFields } from './step-fields.tsx';
import { NumberField, TemperatureField, WordsField } from './sum-fields.tsx';
import { Sum } from './sum-answer.tsx';
import { useTyped } from './use-typed.ts';

const FIRST = { ...FIRST_STEP, temperature: '36.9', push: '0', rolls: '0', extension: '2%' };

/** The time of a developer at a temperature, pushed or pulled, for film already through the bath. */
export function TimeSum() {
  const form = useTyped('time', FIRST);
  const { data: processes = [] } = useArchive('processes.list', {});
  const chosen = stepOfFields(form, processes);
  const usualC = chosen?.family === 'black_and_white' ? [20] : USUAL_C.bath;
  const celsius = form.celsius('temperature', usualC);
  const [stops, rollsDone] = [form.number('push'), form.number('rolls')];
  const rule = parseExtension(form.text('extension'), yours('Typed into this sum'));
  const worked =
    chosen && celsius !== null && stops !== null && rollsDone !== null && rule.ok
      ? planStepTime(chosen.step, chosen.family, { celsius, stops, rollsDone, extension: rule.value })
      : null;
  const curve = chosen ? findTimeCurve(chosen.step, chosen.family) : null;
  const makers = chosen?.step.bathFacts?.extension ?? null;
  return (
    <Sum
      title="Developer time"
      says="Between the times that are known ln(time) runs straight with temperature; outside them nothing is guessed. Then push or pull, then the film already through the bath."
      fields={
        <>
          <StepFields form={form} processes={processes} withPush />
          <TemperatureField form={form} name="temperature" label="Developer" usualC={usualC} />
          <NumberField form={form} name="push" label="Push, stops" reading="less than 0 is a pull" />
          <NumberField
            form={form}
            name="rolls"
            label="Rolls before"
            reading="of 80 sq in through this bath"
          />
          <WordsField
            form={form}
            name="extension"
            label="Added time"
            reading={
              makers === null
                ? 'for every roll before, 2%, or a table 1=3:15, 5=3:30; 2% is from memory'
                : `of this process: ${formatExtension(makers)}`
            }
            error={rule.ok ? undefined : '2% or a table such as 1=3:15, 5=3:30'}
          />
        </>
      }
      summed={{
        lines: worked?.ok === true ? worked.value.lines : null,
        refused:
          worked?.ok === false
            ? withoutStop(
                describePlanFailure(
                  {
                    code: worked.reason,
                    stepKey: chosen?.step.key ?? null,
                    range: curve === null ? null : curveRange(curve),
                  },
                  chosen?.step.name ?? null,
                ),
              )
            : null,
      }}
    >
      {worked?.ok === true ? <p className="sum-result">{formatDuration(worked.value.value)}</p> : null}
    </Sum>
  );
}

function withoutStop(sentence: string): string {
  return sentence.replace(/\.$/, '');
}
