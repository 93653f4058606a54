import type { BathEntry } from '../../../shared/api/methods/bath-methods.ts';
import { addUpFilm, type FilmItem } from '../../../shared/domain/development/film-sum.ts';
import { ROLL_AREA_CM2 } from '../../../shared/domain/film/film-area.ts';
import { describeMixReason } from '../../../shared/text/describe-mix.ts';
import { useArchive } from '../../api/use-query.ts';
import { NumberField } from './sum-fields.tsx';
import { Sum } from './sum-answer.tsx';
import { useTyped } from './use-typed.ts';

const FILMS = [
  { field: 'a', name: '135, 36 exposures', filmFormat: '135', exposures: 36 },
  { field: 'b', name: '135, 24 exposures', filmFormat: '135', exposures: 24 },
  { field: 'c', name: '120', filmFormat: '120', exposures: null },
  { field: 'd', name: '220', filmFormat: '220', exposures: null },
  { field: 'e', name: '4×5 in', filmFormat: '4x5in', exposures: null },
  { field: 'f', name: '8×10 in', filmFormat: '8x10in', exposures: null },
] as const;

const FIRST = { a: '1', b: '0', c: '2', d: '0', e: '12', f: '0' };

/** The film of a load, and what would be left of each bath after it. */
export function FilmSum() {
  const form = useTyped('film', FIRST);
  const { data: baths = [] } = useArchive('baths.list', {});
  const items = FILMS.map(({ field, name, filmFormat, exposures }): FilmItem => {
    return { name, filmFormat, exposures, pieces: form.number(field) ?? 0 };
  });
  const worked = addUpFilm(items);
  return (
    <Sum
      title="Film of a load"
      says="Baths are used up by area: one 135 of 36, one 120, four 4×5 and one 8×10 are the same 80 square inches."
      fields={FILMS.map(({ field, name }) => (
        <NumberField key={field} form={form} name={field} label={name} />
      ))}
      summed={{
        lines: worked.ok ? worked.value.lines : null,
        refused: worked.ok ? null : describeMixReason(worked.reason),
      }}
    >
      {worked.ok ? (
        <>
          <p className="sum-result">{tenth(worked.value.value.rolls)} rolls of 80 sq in</p>
          <BathsAfter
            baths={baths.filter((bath) => bath.condition === 'in use')}
            areaCm2={worked.value.value.areaCm2}
          />
        </>
      ) : null}
    </Sum>
  );
}

function BathsAfter({ baths, areaCm2 }: { readonly baths: readonly BathEntry[]; readonly areaCm2: number }) {
  if (baths.length === 0) return null;
  return (
    <table className="bath-ledger">
      <caption>Baths, in rolls of 80 sq in</caption>
      <thead>
        <tr>
          <th scope="col">Bath</th>
          <th scope="col">Done</th>
          <th scope="col">Left</th>
          <th scope="col">Left after this load</th>
        </tr>
      </thead>
      <tbody>
        {baths.map(({ id, name, rollsDone, areaLeftCm2 }) => (
          <tr key={id}>
            <th scope="row">{name}</th>
            <td>{tenth(rollsDone)}</td>
            <td>{areaLeftCm2 === null ? 'not known' : tenth(areaLeftCm2 / ROLL_AREA_CM2)}</td>
            <td>{areaLeftCm2 === null ? 'not known' : leftWords(areaLeftCm2 - areaCm2)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function leftWords(areaCm2: number): string {
  const rolls = areaCm2 / ROLL_AREA_CM2;
  return rolls < -0.005 ? `0, and ${tenth(-rolls)} too few` : tenth(Math.max(0, rolls));
}

function tenth(rolls: number): string {
  return String(Number(rolls.toFixed(2)));
}
