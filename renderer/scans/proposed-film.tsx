import { FilmFrame } from '../film/film-frame.tsx';
import { edgeStyle, filmScale, wholePixelScale } from '../film/film-scale.ts';
import { frameGeometry } from '../film/film-geometry.ts';
import { FrameGrid } from '../film/frame-grid.tsx';
import { stripsOf, type FilmCell, type ScannedRoll } from './film-cells.ts';
import { describeStanding, fileName } from './scan-words.ts';

export interface ProposedFilmProps {
  readonly cells: readonly FilmCell[];
  readonly roll: ScannedRoll;
  readonly byHand: ReadonlySet<string>;
  readonly at: number | null;
  readonly onAt: (at: number) => void;
}

/** How large the film is drawn, px per mm: a strip of six beside its lines. Our choice. */
const PX_PER_MM = wholePixelScale(2.8);

/** The film as it would be, strip by strip; beside each strip one line for each of its frames. */
export function ProposedFilm({ cells, roll, byHand, at, onAt }: ProposedFilmProps) {
  const strips = stripsOf(cells, roll);
  const scale = frameGeometry(roll.frameFormat, roll.filmFormat).filmMm > 40 ? PX_PER_MM / 1.6 : PX_PER_MM;
  const { perforated } = frameGeometry(roll.frameFormat, roll.filmFormat);
  return (
    <FrameGrid
      label="The film as it would be"
      rows={strips.map((strip) => strip.map((cell) => cell.at))}
      active={at}
      onPick={onAt}
      onOpen={undefined}
      className="proposed"
    >
      {strips.map((strip, row) => (
        <div key={strip[0]?.at ?? row} role="row" className="proposed-row">
          <div role="presentation" className="film-strip proposed-strip" style={filmScale(scale)}>
            {strip.map((cell, column) => (
              <FilmFrame
                key={cell.at}
                frame={cell.drawn}
                filmFormat={roll.filmFormat}
                edge={edgeStyle(scale, perforated)}
                lit={cell.fresh}
                dimmed={!cell.fresh && cell.drawn.picture !== null && cell.at !== at}
                active={cell.at === at}
                column={column + 1}
                selected={cell.at === at}
                tabStop={cell.at === (at ?? cells[0]?.at)}
              />
            ))}
          </div>
          {/* What these lines say is in the names of the frames as well. */}
          <ol className="proposed-lines" aria-hidden="true">
            {strip.map((cell) => (
              // The keyboard picks the frame itself.
              // oxlint-disable-next-line jsx-a11y/click-events-have-key-events, jsx-a11y/no-noninteractive-element-interactions
              <li
                key={cell.at}
                className={cell.at === at ? 'proposed-line proposed-line-at' : 'proposed-line'}
                onClick={() => onAt(cell.at)}
              >
                <Line cell={cell} byHand={byHand} />
              </li>
            ))}
          </ol>
        </div>
      ))}
    </FrameGrid>
  );
}

function Line({ cell, byHand }: { readonly cell: FilmCell; readonly byHand: ReadonlySet<string> }) {
  const [first, ...others] = cell.files;
  return (
    <>
      <span className="numbers proposed-label">{cell.label}</span>
      {first ? (
        <>
          <span className="proposed-file">{fileName(first.path)}</span>
          <span className="proposed-more">{others.length > 0 ? `and ${others.length} more` : ''}</span>
          <span className={cell.fresh ? 'proposed-how' : 'proposed-how proposed-old'}>
            {describeStanding(first, byHand.has(first.path))}
          </span>
        </>
      ) : (
        <span className="proposed-none">
          {cell.known && cell.known.versions.length > 0
            ? 'scanned before, not in this folder'
            : 'no scan in this folder'}
        </span>
      )}
    </>
  );
}
