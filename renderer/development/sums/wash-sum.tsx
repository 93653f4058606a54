import {
  CARRIED_IN_TANK_ML,
  CARRIED_ON_FILM_ML,
  THIOSULFATE_CARRIED_MG,
  washByFills,
} from '../../../shared/domain/development/wash.ts';
import { ROLL_AREA_CM2 } from '../../../shared/domain/film/film-area.ts';
import { describeMixReason } from '../../../shared/text/describe-mix.ts';
import { NumberField } from './sum-fields.tsx';
import { Sum } from './sum-answer.tsx';
import { useTyped } from './use-typed.ts';

/** What fills of water leave of the fixer. */
export function WashSum() {
  const form = useTyped('wash', {
    fill: '500',
    fills: '3',
    carried: String(CARRIED_ON_FILM_ML + CARRIED_IN_TANK_ML),
    thiosulfate: String(THIOSULFATE_CARRIED_MG),
    rolls: '1',
  });
  const [fillMl, fills, carriedMl, carriedMg, rolls] = [
    form.number('fill'),
    form.number('fills'),
    form.number('carried'),
    form.number('thiosulfate'),
    form.number('rolls'),
  ];
  const worked =
    fillMl !== null && fills !== null && carriedMl !== null && carriedMg !== null && rolls !== null
      ? washByFills({ fillMl, fills, carriedMl, carriedMg, areaCm2: rolls * ROLL_AREA_CM2 })
      : null;
  const value = worked?.ok === true ? worked.value.value : null;
  return (
    <Sum
      title="Wash"
      says="Fixer carried into the wash, thinned by each fill. It takes every fill as standing long enough to even out with the gelatine; a hurried one removes less."
      fields={
        <>
          <NumberField form={form} name="fill" label="One fill, ml" />
          <NumberField form={form} name="fills" label="Fills" />
          <NumberField
            form={form}
            name="carried"
            label="Carried in, ml"
            reading="4 ml on the film and 6 ml in a drained tank of 500 ml, as reported"
          />
          <NumberField
            form={form}
            name="thiosulfate"
            label="In it, mg"
            reading="of thiosulfate, as reported"
          />
          <NumberField form={form} name="rolls" label="Rolls" reading="of 80 sq in" />
        </>
      }
      summed={{
        lines: worked?.ok === true ? worked.value.lines : null,
        refused: worked?.ok === false ? describeMixReason(worked.reason) : null,
      }}
    >
      {value === null ? null : (
        <p className="sum-result">
          {value.leftMg <= value.limitMg
            ? 'Enough: less is left than may stay'
            : 'Not enough: more is left than may stay'}
        </p>
      )}
    </Sum>
  );
}
