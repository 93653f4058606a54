import type { Roll } from '../../shared/api/methods/film-methods.ts';
import { formatTemperature } from '../../shared/text/format.ts';
import { useArchive } from '../api/use-query.ts';

/** How the developer was, for the last development of the roll; nothing where nobody wrote it down. */
export function DevelopmentFacts({ roll }: { readonly roll: Roll }) {
  const id = roll.developments.at(-1)?.id ?? 0;
  const { data } = useArchive('developments.get', { id }, { when: id > 0 });
  if (!data) return null;
  const { developerTempC, developerNominalTempC, developerSeconds, bath } = data;
  const off =
    developerTempC === null || developerNominalTempC === null ? 0 : developerTempC - developerNominalTempC;
  const measured = developerTempC === null ? null : formatTemperature(developerTempC);
  if (measured === null && developerSeconds === null && bath === null) return null;
  return (
    <div>
      <dt>Developer</dt>
      <dd>
        {measured}{' '}
        {Math.abs(off) < 0.05 ? null : (
          <span className="roll-facts-off">
            {Math.abs(off).toFixed(1)} {off < 0 ? 'under' : 'over'}
          </span>
        )}
        <small>
          {[developerSeconds === null ? null : minutesWords(developerSeconds), bath?.name ?? null]
            .filter((part) => part !== null)
            .join(', ')}
        </small>
      </dd>
    </div>
  );
}

function minutesWords(seconds: number): string {
  const whole = Math.round(seconds);
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')}`;
}
