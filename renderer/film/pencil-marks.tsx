import { useId, useState } from 'react';
import type { PencilMark } from '../../shared/api/methods/film-methods.ts';
import type { LineItem } from '../../shared/sheet/display-list.ts';
import { drawPencilMark } from '../../shared/sheet/pencil-marks.ts';
import type { PlannedMark } from '../../shared/sheet/sheet-plan.ts';
import './pencil-marks.css';

export interface PencilMarksProps {
  readonly marks: readonly PencilMark[];
  /** The same mark with the same seed always looks the same; the frame's id. */
  readonly seed: string;
  /** The picture, in millimetres. */
  readonly widthMm: number;
  readonly heightMm: number;
  /** How thick the pencil is against that of a print at true size; 1.4 is about 3.8 px at 2.8 px per mm. */
  readonly thickness?: number;
}

/** Thickness of the pencil where nothing else is said. */
const ON_FILM = 1.4;

/** Specks that the wax leaves bare: a fixed scatter in a square of 3 mm. Our choice. */
const SPECKS =
  'M.3.4h.2v.14h-.2zM1.1.2h.14v.2h-.14zM1.9.6h.22v.12h-.22zM2.6.3h.13v.22h-.13zM.7 1.1h.16v.16h-.16zM1.5 1.2h.2v.12h-.2z' +
  'M2.2 1.4h.14v.2h-.14zM.2 1.7h.14v.2h-.14zM1 1.9h.22v.13h-.22zM1.8 2.1h.15v.15h-.15zM2.6 2.2h.2v.13h-.2zM.5 2.5h.2v.15h-.2zM1.3 2.7h.14v.18h-.14zM2.1 2.7h.18v.13h-.18z';

/** What was drawn on a frame with a grease pencil. Said in words by the frame's name; this is for the eye. */
export function PencilMarks({ marks, seed, widthMm, heightMm, thickness = ON_FILM }: PencilMarksProps) {
  const grain = useId();
  // A mark that was there when the frame came into sight lies there; one that comes later is drawn along its stroke.
  const [first] = useState(() => new Set(marks.map(keyOf)));
  if (marks.length === 0) return null;
  const picture = { xMm: 0, yMm: 0, widthMm, heightMm };
  return (
    <svg className="pencil-marks" viewBox={`0 0 ${widthMm} ${heightMm}`} aria-hidden="true">
      <PencilGrain id={grain} />
      {marks.map((mark) => {
        const planned = plannedMark(mark);
        if (!planned) return null;
        const lines = drawPencilMark(planned, seed, picture, thickness);
        const fresh = !first.has(keyOf(mark));
        return (
          <g key={keyOf(mark)} className={fresh ? 'pencil-fresh' : undefined}>
            <PencilLines lines={lines} grain={grain} />
          </g>
        );
      })}
    </svg>
  );
}

/** The bare specks in the wax, to be used as a stroke by its id. */
export function PencilGrain({ id }: { readonly id: string }) {
  return (
    <defs>
      <pattern id={id} width="3" height="3" patternUnits="userSpaceOnUse">
        <path d={SPECKS} className="pencil-speck" />
      </pattern>
    </defs>
  );
}

/** Lines of a hand: dark edge, pencil, bare specks. */
export function PencilLines({
  lines,
  grain,
}: {
  readonly lines: readonly LineItem[];
  readonly grain: string;
}) {
  const halves = [lines.slice(0, lines.length / 2), lines.slice(lines.length / 2)];
  return (
    <>
      {halves.map((half, index) =>
        half.map((line, at) => (
          <path
            // A mark's lines never change their order.
            // oxlint-disable-next-line react/no-array-index-key
            key={`${index} ${at}`}
            d={pathOf(line.points)}
            pathLength={1}
            className={index === 0 ? 'pencil-line pencil-halo' : 'pencil-line pencil-wax'}
            strokeWidth={line.widthMm + (index === 0 ? 0.3 : 0)}
          />
        )),
      )}
      {halves[1]?.map((line, at) => (
        // oxlint-disable-next-line react/no-array-index-key
        <path
          key={`grain ${at}`}
          d={pathOf(line.points)}
          className="pencil-line"
          stroke={`url(#${grain})`}
          strokeWidth={line.widthMm * 0.9}
        />
      ))}
    </>
  );
}

function keyOf({ kind, x, y, width, height }: PencilMark): string {
  return [kind, x, y, width, height].join(' ');
}

function plannedMark(mark: PencilMark): PlannedMark | null {
  if (mark.kind !== 'crop') return { kind: mark.kind };
  const { x, y, width, height } = mark;
  if (x === null || y === null || width === null || height === null) return null;
  return { kind: 'crop', x, y, width, height };
}

function pathOf(points: LineItem['points']): string {
  return points.map(([x, y], index) => `${index === 0 ? 'M' : 'L'}${x.toFixed(2)} ${y.toFixed(2)}`).join('');
}
