import { dilute, parseDilution } from '../../../shared/domain/development/dilution.ts';
import { describeMixReason } from '../../../shared/text/describe-mix.ts';
import { Cautions } from '../cautions.tsx';
import { NumberField, WordsField } from './sum-fields.tsx';
import { Sum } from './sum-answer.tsx';
import { useTyped } from './use-typed.ts';

/** Concentrate and water for a dilution by parts. */
export function DilutionSum() {
  const form = useTyped('dilution', { dilution: '1+9', volume: '600' });
  const volumeMl = form.number('volume');
  const parts = parseDilution(form.text('dilution'));
  const worked = parts.ok && volumeMl !== null ? dilute(parts.value, volumeMl) : null;
  const { concentratesMl, waterMl } = worked?.ok === true ? worked.value.value : NOTHING;
  return (
    <Sum
      title="Dilution"
      says="Parts of concentrate and of water: 1+9 is one part and nine of water, a tenth of the whole."
      fields={
        <>
          <WordsField
            form={form}
            name="dilution"
            label="Dilution"
            error={parts.ok ? undefined : describeMixReason(parts.reason)}
          />
          <NumberField form={form} name="volume" label="Volume, ml" />
        </>
      }
      summed={{
        lines: worked?.ok === true ? worked.value.lines : null,
        refused: worked?.ok === false ? describeMixReason(worked.reason) : null,
      }}
    >
      <p className="sum-result">
        {concentratesMl.map((ml) => `${amount(ml)} ml of concentrate`).join(', ')} and {amount(waterMl)} ml of
        water
      </p>
      <Cautions keys={['acid_into_water', 'gloves', 'eyes']} />
    </Sum>
  );
}

const NOTHING = { concentratesMl: [], waterMl: 0 };

/** Millilitres as one measures them: a tenth where it is little. */
function amount(ml: number): string {
  return String(Number(ml.toFixed(ml < 100 ? 1 : 0)));
}
