import type { MouseEvent } from 'react';
import type { Frame } from '../../shared/api/methods/film-methods.ts';
import { describeDate } from '../../shared/text/calendar-words.ts';
import { frameOf } from '../film/frame-grid.tsx';
import { RouteLink } from '../state/view-state.tsx';
import type { Picking } from '../ui/grid-list.tsx';
import { layLines, outingRuns, type FilmRow } from './film-rows.ts';
import { exposureWords } from './roll-words.ts';
import './ledger.css';

export interface LedgerProps {
  /** What its frames are notes of: `Binder 7, page 31`. */
  readonly label: string;
  readonly rows: readonly FilmRow[];
  /** Places in a row, so that every line is as high as its share of the strip. */
  readonly places: number;
  readonly headPx: number;
  readonly stripPx: number;
  readonly gapPx: number;
  readonly picked: ReadonlySet<number>;
  readonly onPick: (id: number, how: Picking) => void;
  readonly onOpen: (id: number) => void;
}

/** From here on a line has room for a second one below it, px. */
const TWO_LINES_PX = 34;
/** Below this the text of a line is as small as text gets, px. */
const SMALL_PX = 16;

/** Notes beside the film: one line per frame, together exactly as high as its strip. */
export function Ledger(props: LedgerProps) {
  const { label, rows, places, headPx, stripPx, gapPx, picked, onPick, onOpen } = props;
  const most = Math.max(places, ...rows.map(({ frames }) => frames.length));
  const { lines, columns, linePx } = layLines(most, stripPx);

  function click(event: MouseEvent): void {
    const id = frameOf(event.target);
    if (id !== null) {
      onPick(id, event.shiftKey ? 'to' : event.ctrlKey || event.metaKey ? 'toggle' : 'only');
    }
  }
  function doubleClick(event: MouseEvent): void {
    const id = frameOf(event.target);
    if (id !== null) onOpen(id);
  }
  const exposed = rows.some(({ frames }) => frames.some((frame) => exposureWords(frame) !== ''));
  const lineAt = (index: number) => (index % lines) * linePx;
  return (
    // The keyboard picks frames on the film beside it; a mouse may pick them by their notes as well.
    // oxlint-disable-next-line jsx-a11y/click-events-have-key-events, jsx-a11y/interactive-supports-focus, jsx-a11y/no-noninteractive-element-interactions
    <div
      className={['ledger', exposed ? '' : 'ledger-unexposed', linePx < SMALL_PX ? 'ledger-small' : '']
        .filter((name) => name !== '')
        .join(' ')}
      role="table"
      aria-label={`Notes of ${label}`}
      style={{ '--line-px': `${linePx}px` }}
      onClick={click}
      onDoubleClick={doubleClick}
    >
      <div className="ledger-head" style={{ height: headPx }} role="rowgroup">
        <div className="ledger-line ledger-titles" role="row">
          <span role="columnheader">No.</span>
          <span role="columnheader">Exposure</span>
          <span role="columnheader">Caption</span>
          <span role="columnheader" className="ledger-scans">
            Scans
          </span>
        </div>
      </div>
      <div className="ledger-body" role="rowgroup">
        {rows.map(({ frames, others }, row) => (
          <div
            // Rows are places: they have no other name than their number.
            // oxlint-disable-next-line react/no-array-index-key
            key={row}
            className="ledger-block"
            role="presentation"
            style={{
              height: stripPx,
              marginBottom: gapPx,
              gridTemplateRows: `repeat(${lines}, ${linePx}px)`,
              gridTemplateColumns: `repeat(${columns}, minmax(0, 1fr))`,
            }}
          >
            {frames.map((frame) => (
              <LedgerLine
                key={frame.id}
                frame={frame}
                picked={picked.has(frame.id)}
                roomy={linePx >= TWO_LINES_PX}
                short={columns > 1}
              />
            ))}
            {others.length > 0 ? (
              <div className="ledger-other" role="row">
                <span role="cell">
                  {others.map(({ rollId, number }) => (
                    <RouteLink key={rollId} to={{ view: 'rolls', ids: [rollId] }}>
                      Roll {number}
                    </RouteLink>
                  ))}
                </span>
              </div>
            ) : null}
          </div>
        ))}
        {outingRuns(rows).map(({ outing, from, to }) => (
          <span
            key={`${from.row} ${from.index}`}
            className="ledger-outing"
            aria-hidden="true"
            style={{
              top: from.row * (stripPx + gapPx) + lineAt(from.index) + 2,
              height:
                (to.row - from.row) * (stripPx + gapPx) + lineAt(to.index) - lineAt(from.index) + linePx - 4,
            }}
          >
            <span>{outing.name}</span>
          </span>
        ))}
      </div>
    </div>
  );
}

interface LedgerLineProps {
  readonly frame: Frame;
  readonly picked: boolean;
  readonly roomy: boolean;
  readonly short: boolean;
}

function LedgerLine({ frame, picked, roomy, short }: LedgerLineProps) {
  const classes = [
    'ledger-line',
    picked ? 'ledger-picked' : '',
    roomy ? 'ledger-roomy' : '',
    short ? 'ledger-short' : '',
  ];
  const more = [frame.place, frame.taken && describeDate(frame.taken), frame.tags.join(', ')].filter(
    (part) => part !== null && part !== '',
  );
  return (
    <div role="row" className={classes.filter((name) => name !== '').join(' ')} data-frame={frame.id}>
      <span role="cell" className="ledger-number numbers">
        {frame.label}
      </span>
      <span role="cell" className="ledger-exposure numbers">
        {exposureWords(frame)}
      </span>
      <span
        role="cell"
        className={frame.caption === null ? 'ledger-none' : undefined}
        title={frame.caption ?? undefined}
      >
        {frame.caption ?? 'no caption'}
        {roomy && more.length > 0 ? <small>{more.join(', ')}</small> : null}
      </span>
      <span role="cell" className="ledger-scans numbers">
        {frame.versions.length === 0 ? '–' : frame.versions.length}
      </span>
    </div>
  );
}
