import { USUAL_C } from '../../../shared/domain/development/temperature-question.ts';
import { mixWater } from '../../../shared/domain/development/water-mix.ts';
import { describeMixReason } from '../../../shared/text/describe-mix.ts';
import { Cautions } from '../cautions.tsx';
import { NumberField, TemperatureField } from './sum-fields.tsx';
import { Sum } from './sum-answer.tsx';
import { useTyped } from './use-typed.ts';

/** Hot and cold water to a volume at a temperature. */
export function WaterSum() {
  const form = useTyped('water', { hot: '55', cold: '12', target: '39', volume: '2000' });
  const [hotC, coldC, targetC, volumeMl] = [
    form.celsius('hot', USUAL_C.hot),
    form.celsius('cold', USUAL_C.cold),
    form.celsius('target', USUAL_C.bath),
    form.number('volume'),
  ];
  const worked =
    hotC !== null && coldC !== null && targetC !== null && volumeMl !== null
      ? mixWater(hotC, coldC, targetC, volumeMl)
      : null;
  return (
    <Sum
      title="Hot and cold water"
      says="How much of each gives a bath of the temperature wanted. Nothing is taken off for a cold vessel."
      fields={
        <>
          <TemperatureField form={form} name="hot" label="Hot" usualC={USUAL_C.hot} />
          <TemperatureField form={form} name="cold" label="Cold" usualC={USUAL_C.cold} />
          <TemperatureField form={form} name="target" label="Wanted" usualC={USUAL_C.bath} />
          <NumberField form={form} name="volume" label="Volume, ml" />
        </>
      }
      summed={{
        lines: worked?.ok === true ? worked.value.lines : null,
        refused: worked?.ok === false ? describeMixReason(worked.reason) : null,
      }}
    >
      {worked?.ok === true ? (
        <p className="sum-result">
          {worked.value.value.hotMl.toFixed(0)} ml hot and {worked.value.value.coldMl.toFixed(0)} ml cold
        </p>
      ) : null}
      <Cautions keys={['hot_water']} />
    </Sum>
  );
}
