import { effectiveDevelopment } from '../../../shared/domain/development/effective-development.ts';
import { parseTimePoints } from '../../../shared/domain/development/rule-text.ts';
import { yours } from '../../../shared/domain/development/source.ts';
import { suggestTemperature, USUAL_C } from '../../../shared/domain/development/temperature-question.ts';
import { findTimeCurve } from '../../../shared/domain/development/time-curve.ts';
import { describeMixReason } from '../../../shared/text/describe-mix.ts';
import { formatTemperature } from '../../../shared/text/format.ts';
import { formatDuration } from '../../../shared/units/duration.ts';
import { useArchive } from '../../api/use-query.ts';
import { FIRST_STEP, StepFields, stepOfFields } from './step-fields.tsx';
import { TemperatureField, TimeField, WordsField } from './sum-fields.tsx';
import { Sum } from './sum-answer.tsx';
import { useTyped } from './use-typed.ts';

const FIRST = {
  ...FIRST_STEP,
  planned: '3:15',
  aim: '37.8',
  taken: '3:15',
  readings: '0:00@37.9, 1:30@37.4, 3:00@37.0',
};

/** What the temperatures read during a run amount to. */
export function RunSum() {
  const form = useTyped('run', FIRST);
  const { data: processes = [] } = useArchive('processes.list', {});
  const chosen = stepOfFields(form, processes);
  const curve = chosen ? findTimeCurve(chosen.step, chosen.family) : null;
  const readings = parseTimePoints(form.text('readings'), yours('Typed into this sum'));
  const taken = form.seconds('taken');
  const planned = form.seconds('planned');
  const aimC = form.celsius('aim', USUAL_C.bath);
  const doubtful = (readings.ok ? readings.value : []).find(
    ({ celsius }) => suggestTemperature(celsius, USUAL_C.bath) !== null,
  );
  const worked =
    curve !== null &&
    readings.ok &&
    doubtful === undefined &&
    taken !== null &&
    planned !== null &&
    aimC !== null
      ? effectiveDevelopment(
          curve,
          readings.value.map(({ seconds, celsius }) => ({ atSeconds: seconds, celsius })),
          taken,
          planned,
          aimC,
        )
      : null;
  const value = worked?.ok === true ? worked.value.value : null;
  return (
    <Sum
      title="What a run amounted to"
      says="Development goes at the rate 1 / time at the temperature. Between readings the temperature runs straight. A push or added time multiplies both sides alike and drops out."
      fields={
        <>
          <StepFields form={form} processes={processes} withPush={false} />
          <TimeField form={form} name="planned" label="Planned" />
          <TemperatureField form={form} name="aim" label="Planned at" usualC={USUAL_C.bath} />
          <TimeField form={form} name="taken" label="Time so far" />
          <WordsField
            form={form}
            name="readings"
            label="Readings"
            reading="time from pouring in at °C"
            error={
              readings.ok
                ? doubtful === undefined
                  ? undefined
                  : `${doubtful.celsius} °C: is ${formatTemperature(suggestTemperature(doubtful.celsius, USUAL_C.bath) ?? 0)} meant?`
                : 'readings such as 0:00@37.9, 1:30@37.4'
            }
          />
        </>
      }
      summed={{
        lines: worked?.ok === true ? worked.value.lines : null,
        refused: worked?.ok === false ? describeMixReason(worked.reason) : null,
      }}
    >
      {value === null ? null : (
        <p className="sum-result">
          Mean {formatTemperature(value.meanC)}; worth {formatDuration(value.equivalentSeconds)} at{' '}
          {formatTemperature(aimC ?? 0)}; the same development takes {formatDuration(value.secondsNeeded)}
        </p>
      )}
    </Sum>
  );
}
