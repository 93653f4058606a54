import { memo } from 'react';
import { halfNumberAfter } from '../../shared/sheet/draw-strip.ts';
import { describeFrame, type DrawnFrame } from './drawn-frame.ts';
import { frameGeometry, holesPath, type FrameGeometry } from './film-geometry.ts';
import { FilmPicture } from './film-picture.tsx';
import type { EdgeStyle } from './film-scale.ts';
import { PencilMarks } from './pencil-marks.tsx';
import './film.css';

export interface FilmFrameProps {
  readonly frame: DrawnFrame;
  readonly filmFormat: string;
  readonly edge: EdgeStyle;
  /** What the film's edge says here, or null. */
  readonly edgeText?: string | null;
  /** Light is on it: holes and number. */
  readonly lit?: boolean;
  /** The keyboard is at it. */
  readonly active?: boolean;
  /** Left in the dark, beside a frame that is lit. */
  readonly dimmed?: boolean;
  /** Its place in its row, from 1, in a grid of frames: a cell that takes the focus. Without it the frame is for the eye. */
  readonly column?: number;
  readonly selected?: boolean;
  /** The one frame that Tab leads to. */
  readonly tabStop?: boolean;
}

/** One frame as a piece of its film: holes, edge print, picture, faults, pencil. Sized by `--mm`. */
export const FilmFrame = memo(function FilmFrame(props: FilmFrameProps) {
  const { frame, filmFormat, edge, edgeText = null, column, selected = false, tabStop = false } = props;
  const geometry = frameGeometry(frame.frameFormat, filmFormat);
  const classes = [
    'film-frame',
    geometry.perforated ? 'film-perforated' : 'film-plain',
    `film-edge-${edge}`,
    props.lit === true ? 'film-lit' : '',
    props.active === true ? 'film-active' : '',
    props.dimmed === true ? 'film-dimmed' : '',
  ];
  const { xMm, yMm, widthMm, heightMm, cellMm, filmMm } = geometry;
  return (
    <div
      className={classes.filter((name) => name !== '').join(' ')}
      style={{ '--cell': cellMm, '--film-across': filmMm }}
      data-frame={frame.id}
      {...(column === undefined
        ? { 'aria-hidden': true }
        : {
            role: 'gridcell',
            'aria-selected': selected,
            'aria-colindex': column,
            tabIndex: tabStop ? 0 : -1,
          })}
    >
      {column === undefined ? null : <span className="unseen">{describeFrame(frame)}</span>}
      {geometry.perforated ? <Holes geometry={geometry} edge={edge} /> : null}
      <div className="film-gate" style={{ '--x': xMm, '--y': yMm, '--w': widthMm, '--h': heightMm }}>
        {frame.picture === null ? (
          <span className="film-clear" aria-hidden="true">
            {edge === 'bare' ? '' : 'no scan'}
          </span>
        ) : (
          <FilmPicture picture={frame.picture} width={widthMm} height={heightMm} />
        )}
        {frame.faults.map((fault, index) => (
          <span
            // Faults have no id, and are only drawn.
            // oxlint-disable-next-line react/no-array-index-key
            key={`${fault.kind} ${index}`}
            className={`film-fault film-fault-${fault.edge ?? 'bottom'}`}
          />
        ))}
        <PencilMarks marks={frame.marks} seed={String(frame.id)} widthMm={widthMm} heightMm={heightMm} />
      </div>
      {edge === 'bare' ? null : <EdgePrint frame={frame} geometry={geometry} edgeText={edgeText} />}
    </div>
  );
});

function Holes({ geometry, edge }: { readonly geometry: FrameGeometry; readonly edge: EdgeStyle }) {
  return (
    <svg className="film-holes" viewBox={`0 0 ${geometry.cellMm} ${geometry.filmMm}`} aria-hidden="true">
      <path d={holesPath(geometry, edge)} />
    </svg>
  );
}

interface EdgePrintProps {
  readonly frame: DrawnFrame;
  readonly geometry: FrameGeometry;
  readonly edgeText: string | null;
}

/** What the light has printed on the film's edge: number, code bars and half-number below, the stock above. */
function EdgePrint({ frame, geometry, edgeText }: EdgePrintProps) {
  const whole = geometry.perforated && geometry.cellMm > 30;
  const half = whole ? halfNumberAfter(frame.label) : null;
  return (
    <>
      {edgeText === null ? null : (
        <span className="film-text" aria-hidden="true">
          {edgeText.toLocaleUpperCase()}
        </span>
      )}
      <span className="film-number" aria-hidden="true">
        {frame.label}
      </span>
      {whole ? <span className="film-bars" /> : null}
      {half === null ? null : (
        <span className="film-half" aria-hidden="true">
          {half}
        </span>
      )}
    </>
  );
}
