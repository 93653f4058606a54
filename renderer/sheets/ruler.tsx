import { MM_PER_INCH } from '../../shared/units/length.ts';

export interface RulerProps {
  readonly lengthMm: number;
  readonly pxPerMm: number;
  readonly unit: 'mm' | 'in';
  readonly along: 'top' | 'left';
}

/** Divisions of a ruler: a small tick, a longer one, a number. */
const DIVISIONS = {
  mm: { stepMm: 5, longEach: 2, numberEach: 10, each: 5 },
  in: { stepMm: MM_PER_INCH / 4, longEach: 2, numberEach: 4, each: 0.25 },
} as const;

/** Thickness of the ruler, px. */
const THICK_PX = 40;

/** A ruler along the paper, from its corner. For the eye: the paper's size is said in words. */
export function Ruler({ lengthMm, pxPerMm, unit, along }: RulerProps) {
  const { stepMm, longEach, numberEach, each } = DIVISIONS[unit];
  const count = Math.floor(lengthMm / stepMm + 1e-6);
  const longPx = lengthMm * pxPerMm;
  const top = along === 'top';
  return (
    <svg
      className={`ruler ruler-${along}`}
      width={top ? longPx + 1 : THICK_PX}
      height={top ? THICK_PX : longPx + 1}
      aria-hidden="true"
    >
      {top ? (
        <text className="ruler-unit" x="-14" y="16">
          {unit}
        </text>
      ) : null}
      {Array.from({ length: count + 1 }, (_, index) => {
        const at = Math.round(index * stepMm * pxPerMm) + 0.5;
        const tall = index % numberEach === 0 ? 10 : index % longEach === 0 ? 8 : 5;
        const number = index % numberEach === 0 ? index * each : null;
        return (
          <g key={index}>
            {top ? (
              <path d={`M${at} ${THICK_PX - 7}v${-tall}`} />
            ) : (
              <path d={`M${THICK_PX - 7} ${at}h${-tall}`} />
            )}
            {number === null ? null : (
              <text
                x={top ? at : THICK_PX - 21}
                y={top ? THICK_PX - 23 : at + 4}
                textAnchor={top ? 'middle' : 'end'}
              >
                {number}
              </text>
            )}
          </g>
        );
      })}
    </svg>
  );
}
