import { accept } from '../../../shared/domain/checked.ts';
import { dilute, parseDilution } from '../../../shared/domain/development/dilution.ts';
import { yours } from '../../../shared/domain/development/source.ts';
import { volumeForArea, volumeForReels } from '../../../shared/domain/development/tank-volume.ts';
import { ROLL_AREA_CM2 } from '../../../shared/domain/film/film-area.ts';
import { describeMixReason } from '../../../shared/text/describe-mix.ts';
import { useArchive } from '../../api/use-query.ts';
import { Button } from '../../ui/button.tsx';
import { NumberField, WordsField } from './sum-fields.tsx';
import { Sum, type Summed } from './sum-answer.tsx';
import { useTyped } from './use-typed.ts';

const FIRST = {
  reels135: '2',
  reels120: '0',
  per135: '290',
  per120: '500',
  dilution: '1+9',
  minimum: '',
};

/** How much of a bath covers the reels, and holds enough developer for the film. */
export function VolumeSum() {
  const form = useTyped('volume', FIRST);
  const { data: tanks = [] } = useArchive('tanks.list', {});
  const reels135 = form.number('reels135') ?? 0;
  const reels120 = form.number('reels120') ?? 0;
  const minimumMl = form.number('minimum');
  const parts = parseDilution(form.text('dilution'));
  const cover = volumeForReels(
    { reels: null, mlPer135: form.number('per135'), mlPer120: form.number('per120'), volumeMl: null },
    { reels135, reels120 },
  );
  const enough =
    minimumMl === null || !parts.ok
      ? null
      : volumeForArea((reels135 + reels120) * ROLL_AREA_CM2, parts.value, {
          mlPerRoll: minimumMl,
          source: yours('As the developer’s maker says'),
        });
  const volumes = [cover, enough].flatMap((worked) => (worked?.ok === true ? [worked.value.value] : []));
  const volumeMl = volumes.length === 0 ? null : Math.max(...volumes);
  const mixed = parts.ok && volumeMl !== null ? dilute(parts.value, volumeMl) : null;
  const failed = [cover, enough ?? accept(null), parts, mixed ?? accept(null)].find((each) => !each.ok);
  const summed: Summed = {
    refused: failed?.ok === false ? describeMixReason(failed.reason) : null,
    lines:
      failed === undefined
        ? [cover, enough, mixed].flatMap((worked) => (worked?.ok === true ? worked.value.lines : []))
        : null,
  };
  return (
    <Sum
      title="Volume"
      says="What covers the reels, and what holds enough developer for the film: the larger counts. The volumes of a tank are moulded on its foot; 290 and 500 ml are from memory."
      fields={
        <>
          <NumberField form={form} name="reels135" label="Reels of 135" />
          <NumberField form={form} name="reels120" label="Reels of 120" />
          <NumberField form={form} name="per135" label="ml for 135" />
          <NumberField form={form} name="per120" label="ml for 120" />
          {tanks.length === 0 ? null : (
            <div className="development-row">
              {tanks.map(({ id, name, mlPer135, mlPer120 }) => (
                <Button
                  key={id}
                  look="quiet"
                  onPress={() => {
                    form.setAll({
                      ...(mlPer135 === null ? {} : { per135: String(mlPer135) }),
                      ...(mlPer120 === null ? {} : { per120: String(mlPer120) }),
                    });
                  }}
                >
                  As “{name}” takes
                </Button>
              ))}
            </div>
          )}
          <WordsField
            form={form}
            name="dilution"
            label="Dilution"
            error={parts.ok ? undefined : describeMixReason(parts.reason)}
          />
          <NumberField
            form={form}
            name="minimum"
            label="At least, ml"
            reading="of undiluted developer for 80 sq in of film, as its maker says; or nothing"
          />
        </>
      }
      summed={summed}
    >
      <p className="sum-result">{volumeMl === null ? '' : `${Math.ceil(volumeMl)} ml`}</p>
    </Sum>
  );
}
