import { useState, type ReactNode } from 'react';
import type { Roll } from '../../shared/api/methods/film-methods.ts';
import { stopsBetween } from '../../shared/domain/exposure/exposure-index.ts';
import { findFilmFormat } from '../../shared/domain/film/film-format.ts';
import { findFrameFormat } from '../../shared/domain/film/frame-format.ts';
import { describeDate, describeSpan } from '../../shared/text/calendar-words.ts';
import { PROCESS_NAMES } from '../../shared/text/format.ts';
import { RouteLink } from '../state/view-state.tsx';
import { Button } from '../ui/button.tsx';
import { DevelopmentFacts } from './development-facts.tsx';
import { DoneLine, type Done } from './done-line.tsx';
import { RollFactsForm } from './roll-facts-form.tsx';
import { RemoveRoll } from './remove-roll.tsx';
import { StateForm } from './state-form.tsx';
import { StateLine } from './state-line.tsx';
import { binderWords, count } from './roll-words.ts';
import './roll-card.css';

export interface RollCardProps {
  readonly roll: Roll;
  /** What was written to the card last. */
  readonly done: Done | null;
  readonly onDone: (done: Done | null) => void;
}

type Open = 'facts' | 'state' | 'remove' | null;

/** Everything that is known of the roll as a whole; its facts are changed where they stand. */
export function RollCard({ roll, done, onDone }: RollCardProps) {
  const [open, setOpen] = useState<Open>(null);
  const finish = (next: Done) => {
    onDone(next);
    setOpen(null);
  };
  return (
    <section className="roll-index-card" aria-label={`Card of roll ${roll.number}`}>
      <header>
        <h2>Roll card</h2>
        {open === 'facts' ? null : (
          <Button
            look="quiet"
            onPress={() => setOpen('facts')}
            name={`Change the facts of roll ${roll.number}`}
          >
            Change
          </Button>
        )}
      </header>
      <StateLine roll={roll} />
      {open === 'state' ? (
        <StateForm roll={roll} onDone={finish} onLeave={() => setOpen(null)} />
      ) : (
        <div className="roll-card-state">
          <Button look="quiet" onPress={() => setOpen('state')} name={`Set the state of roll ${roll.number}`}>
            Set the state
          </Button>
        </div>
      )}
      {open === 'facts' ? (
        <RollFactsForm
          roll={roll}
          onDone={finish}
          onLeave={() => setOpen(null)}
          onRemove={() => setOpen('remove')}
        />
      ) : (
        <Facts roll={roll} />
      )}
      <DoneLine done={done} onUndone={() => onDone(null)} />
      <span className="rod-hole" aria-hidden="true" />
      {open === 'remove' ? <RemoveRoll roll={roll} onClose={() => setOpen(null)} /> : null}
    </section>
  );
}

function Facts({ roll }: { readonly roll: Roll }) {
  return (
    <dl className="roll-facts">
      <Fact label="Stock">
        {roll.stock === null ? (
          <Unknown>not known</Unknown>
        ) : (
          <>
            {roll.stock.name}, {PROCESS_NAMES[roll.stock.process]}
          </>
        )}
        <small>{filmWords(roll)}</small>
      </Fact>
      <Fact label="Exposed at">
        {roll.exposureIndex === null ? <Unknown>as the stock</Unknown> : <>EI {roll.exposureIndex}</>}{' '}
        <small className="roll-facts-inline">{pushWords(roll)}</small>
      </Fact>
      {roll.expires === null ? null : <Fact label="Expires">{describeDate(roll.expires)}</Fact>}
      <Fact label="Camera">{roll.camera?.name ?? <Unknown>none yet</Unknown>}</Fact>
      <Fact label={roll.outings.length > 1 ? 'Outings' : 'Outing'}>
        {roll.outings.length === 0 ? (
          <Unknown>{roll.shot === null ? 'none written down' : describeSpan(roll.shot)}</Unknown>
        ) : (
          roll.outings.map(({ id, title, date }) => (
            <span key={id} className="roll-facts-line">
              <RouteLink to={{ view: 'rolls', params: { outing: String(id) } }}>{title}</RouteLink>{' '}
              {date === null ? null : <small className="roll-facts-inline">{describeDate(date)}</small>}
            </span>
          ))
        )}
      </Fact>
      <Fact label="Development">
        {roll.developments.length === 0 ? (
          <>
            <Unknown>{roll.developed === null ? 'none written down' : describeDate(roll.developed)}</Unknown>
            {roll.state === 'to develop' ? (
              <>
                {', '}
                <RouteLink to={{ view: 'development', ids: ['plan'], params: { rolls: String(roll.id) } }}>
                  plan it
                </RouteLink>
              </>
            ) : null}
          </>
        ) : (
          roll.developments.map(({ id, process, date }) => (
            <span key={id} className="roll-facts-line">
              <RouteLink to={{ view: 'development', ids: [id] }}>{PROCESS_NAMES[process]}</RouteLink>{' '}
              {date === null ? null : <small className="roll-facts-inline">{describeDate(date)}</small>}
            </span>
          ))
        )}
      </Fact>
      <DevelopmentFacts roll={roll} />
      <Fact label="Lies in">
        {roll.pages.length === 0 ? (
          <Unknown>no page</Unknown>
        ) : (
          roll.pages.map(({ pageId, binder, page }) => (
            <span key={pageId} className="roll-facts-line">
              <RouteLink to={{ view: 'binders', params: { binder, page: String(page) } }}>
                {binderWords(binder)}, page {page}
              </RouteLink>
            </span>
          ))
        )}
        {roll.pages.length === 0 && roll.frames > 0 ? (
          <>
            {', '}
            <RouteLink to={{ view: 'binders', params: { file: String(roll.id) } }}>file it</RouteLink>
          </>
        ) : null}
      </Fact>
      <Fact label="Scans">
        {roll.scans === 0 ? <Unknown>none yet</Unknown> : `${roll.scans} of ${count(roll.frames, 'frame')}`}
        {', '}
        <RouteLink to={{ view: 'scans', params: { roll: String(roll.id) } }}>bring scans in</RouteLink>
      </Fact>
      {roll.lab === null ? null : <Fact label="Lab">{roll.lab}</Fact>}
      {roll.note === null ? null : (
        <Fact label="Note">
          <span className="roll-facts-note">{roll.note}</span>
        </Fact>
      )}
    </dl>
  );
}

interface FactProps {
  readonly label: string;
  readonly children: ReactNode;
}

function Fact({ label, children }: FactProps) {
  return (
    <div>
      <dt>{label}</dt>
      <dd>{children}</dd>
    </div>
  );
}

function Unknown({ children }: { readonly children: ReactNode }) {
  return <span className="roll-facts-none">{children}</span>;
}

function filmWords(roll: Roll): string {
  const film = findFilmFormat(roll.filmFormat)?.name ?? roll.filmFormat;
  const frames = findFrameFormat(roll.frameFormat)?.name ?? roll.frameFormat;
  const exposures = roll.exposures === null ? '' : `, ${count(roll.exposures, 'exposure')}`;
  return `${film}, ${frames}${exposures}`;
}

/** How far the index lies from the stock's speed, and what was asked of the development. */
function pushWords(roll: Roll): string {
  const iso = roll.stock?.iso ?? null;
  const stops = iso === null || roll.exposureIndex === null ? 0 : stopsBetween(iso, roll.exposureIndex);
  const rounded = Math.round(Math.abs(stops) * 10) / 10;
  const under =
    rounded < 0.1
      ? null
      : `${rounded} ${rounded === 1 ? 'stop' : 'stops'} ${stops > 0 ? 'under' : 'over'} ISO ${iso}`;
  const push =
    roll.pushStops === null || roll.pushStops === 0
      ? null
      : `${roll.pushStops > 0 ? 'push' : 'pull'} ${Math.abs(roll.pushStops)}`;
  return [under, push].filter((part) => part !== null).join(', ');
}
