import { isUnverified } from '../../shared/domain/development/source.ts';
import type { WorkingLine } from '../../shared/domain/development/working.ts';
import { formatDuration } from '../../shared/units/duration.ts';

/** A sum, line by line; numbers that nobody printed are marked, the source of each can be read. */
export function WorkingLines({ lines }: { readonly lines: readonly WorkingLine[] }) {
  return (
    <dl className="working">
      {lines.map((line) => (
        <div key={`${line.label}-${line.formula}`} className="working-line">
          <dt>{line.label}</dt>
          <dd className="numbers">
            {line.formula} = <strong>{valueWords(line)}</strong>
            {isUnverified(line.source) ? <em className="working-mark"> {line.source.kind}</em> : null}
          </dd>
          <dd className="working-source">{line.source.text}</dd>
        </div>
      ))}
    </dl>
  );
}

function valueWords({ value, unit }: WorkingLine): string {
  if (unit === 's') return formatDuration(value);
  // What a wash leaves is far below a hundredth; two figures of it are told.
  const isSmall = value !== 0 && Math.abs(value) < 0.01;
  const figures = isSmall
    ? value.toFixed(1 - Math.floor(Math.log10(Math.abs(value))))
    : String(Number(value.toFixed(2)));
  return `${figures} ${unit}`.trim();
}
