import type { Output } from '../../shared/api/contract.ts';
import type { PlottedRoll } from '../../shared/api/methods/causes-methods.ts';
import type { CastOfRoll } from '../../shared/api/methods/colour-methods.ts';
import { LOG_NUMBERS } from '../../shared/domain/colour/logged-roll.ts';
import { describeError } from '../../shared/text/describe-error.ts';
import { useArchive } from '../api/use-query.ts';
import { drawnFrame } from '../film/drawn-frame.ts';
import { FilmStrip } from '../film/film-strip.tsx';
import { useViewState } from '../state/view-state.tsx';
import { Button } from '../ui/button.tsx';
import { Notice } from '../ui/notice.tsx';
import { CastCompass } from './cast-compass.tsx';
import { formatSigned } from './cast-axes.ts';
import { StandingLine } from './standing-line.tsx';
import './roll-panel.css';

export interface RollPanelProps {
  readonly rollId: number;
  /** The rolls of its stock, itself among them. */
  readonly among: readonly PlottedRoll[];
}

/** Frames of the strip at the head of the panel. */
const SHOWN = 3;

/** One roll: what its scans are, its cast in figures and in words, and where it stands among its stock. */
export function RollPanel({ rollId, among }: RollPanelProps) {
  const viewState = useViewState();
  const roll = useArchive('rolls.get', { id: rollId }, { keepFormer: true });
  const cast = useArchive('colour.ofRoll', { rollId }, { keepFormer: true });
  const frames = useArchive('frames.ofRoll', { rollId }, { keepFormer: true });
  const own = among.find((each) => each.id === rollId);
  const error = cast.error ?? roll.error ?? frames.error;
  if (error) return <Notice kind="failed" {...describeError(error)} />;
  if (!roll.data || !cast.data || !frames.data) {
    return <p className="casts-measuring">Measuring roll {own?.name ?? ''}, frame by frame.</p>;
  }
  const { kind, roll: measured } = cast.data;
  const outliers = cast.data.frames.filter((frame) => frame.outlier);
  const strip = stripOf(frames.data, cast.data);
  return (
    <>
      <h2 className="cast-roll-head">
        <span className="numbers">{roll.data.number}</span> <small>{roll.data.title ?? 'no title'}</small>
      </h2>
      {strip.length === 0 ? null : (
        <FilmStrip
          label={`${strip.length === 1 ? 'Frame' : 'Frames'} ${strip.map(({ label }) => label).join(', ')} of ${roll.data.number}`}
          filmFormat={roll.data.filmFormat}
          frames={strip.map((frame) => drawnFrame(frame, roll.data?.filmFormat ?? '135'))}
          pxPerMm={3.2}
          edgeTexts={roll.data.stock ? [roll.data.stock.name] : []}
        />
      )}
      <p className="casts-quiet">{kindWords(kind)}</p>
      <div className="cast-roll-measure">
        <CastCompass
          casts={among.flatMap(({ a, b, id }) => (a === null || b === null ? [] : [{ id, a, b }]))}
          chosen={rollId}
        />
        <dl className="cast-roll-figures numbers">
          <Row label="a*, green to magenta" value={figure(measured.a, 1)} />
          <Row label="b*, blue to yellow" value={figure(measured.b, 1)} />
          <Row
            label="spread over frames"
            value={measured.spread === null ? 'not measured' : measured.spread.toFixed(2)}
          />
          {measured.against === null ? null : (
            <>
              <Row label="Δa* against its stock" value={formatSigned(measured.against.deltaA, 1)} />
              <Row label="Δb* against its stock" value={formatSigned(measured.against.deltaB, 1)} />
              <Row label="in all" value={`ΔE00 ${measured.against.deltaE00.toFixed(1)}`} />
            </>
          )}
        </dl>
      </div>
      <p className="cast-roll-say">{measured.say}</p>
      {own === undefined ? null : (
        <section aria-label="Where it stands among the others">
          <h3>Where it stands among the {among.length}</h3>
          {LOG_NUMBERS.map((factor) => (
            <StandingLine key={factor} factor={factor} roll={own} among={among} />
          ))}
        </section>
      )}
      <dl className="cast-roll-facts">
        <Row
          label="Shadows against highlights"
          value={
            measured.crossover === null
              ? 'no parting that stands out'
              : `shadows ${measured.crossover.shadows}, highlights ${measured.crossover.highlights}, ΔE00 ${measured.crossover.deltaE00.toFixed(1)}`
          }
        />
        <Row
          label="Measured against"
          value={measured.against === null ? 'not enough rolls' : `${measured.against.rolls} rolls`}
        />
        <Row
          label="Frames"
          value={`${measured.frames} of ${cast.data.frames.length} have a neutral to go by`}
        />
      </dl>
      {outliers.length === 0 ? null : (
        <p>
          {outliers.length === 1 ? 'Frame' : 'Frames'} {outliers.map(({ label }) => label).join(', ')}{' '}
          {outliers.length === 1 ? 'lies' : 'lie'} apart from the rest of the roll.
        </p>
      )}
      <details className="cast-roll-frames">
        <summary>Every frame</summary>
        <ul>
          {cast.data.frames.map((frame) => (
            <li key={frame.frameId} className={frame.outlier ? 'cast-frame-apart' : undefined}>
              <span className="numbers">{frame.label}</span>
              <span className="numbers">
                {frame.a === null || frame.b === null
                  ? ''
                  : `a* ${formatSigned(frame.a, 1)}, b* ${formatSigned(frame.b, 1)}, ${Math.round(100 * frame.confidence)} % sure`}
              </span>
              <span>
                {frame.note}
                {frame.outlier ? ' Apart from the rest of the roll.' : ''}
              </span>
            </li>
          ))}
        </ul>
      </details>
      <div>
        <Button
          look="main"
          onPress={() => viewState.go({ view: 'rolls', ids: [rollId] })}
          name={`Open roll ${roll.data.number}`}
        >
          Open the roll
        </Button>
      </div>
    </>
  );
}

function Row({ label, value }: { readonly label: string; readonly value: string }) {
  return (
    <div>
      <dt>{label}</dt>
      <dd>{value}</dd>
    </div>
  );
}

function figure(value: number | null, digits: number): string {
  return value === null ? 'not measured' : formatSigned(value, digits);
}

/** Neighbours on the film around the frame that says most, so that the strip is one that exists. */
function stripOf(frames: Output<'frames.ofRoll'>, cast: CastOfRoll): Output<'frames.ofRoll'> {
  const apart = cast.frames.find((frame) => frame.outlier);
  const surest = cast.frames.toSorted((one, other) => other.confidence - one.confidence)[0];
  const at = frames.findIndex(({ id }) => id === (apart ?? surest)?.frameId);
  const first = Math.max(0, Math.min(at - 1, frames.length - SHOWN));
  return frames.slice(first, first + SHOWN);
}

const POLARITY_WORDS = {
  positive: 'Scanned as positives, shown as they are',
  negative: 'Scanned as negatives, shown as positives',
  unknown: 'Whether these are negatives cannot be told',
} as const;
const COLOUR_WORDS = {
  colour: 'in colour',
  monochrome: 'black-and-white, so without a cast',
  toned: 'toned, so without a cast',
  unknown: 'colour or not cannot be told',
} as const;

function kindWords({ polarity, colour, confidence }: CastOfRoll['kind']): string {
  return `${POLARITY_WORDS[polarity]}; ${COLOUR_WORDS[colour]}. ${Math.round(100 * confidence)} % sure.`;
}
