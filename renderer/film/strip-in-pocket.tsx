import { memo, useId } from 'react';
import { steadyRing } from './pencil-ring.ts';
import { frameGeometry, stripLengthMm } from './film-geometry.ts';
import { FilmFrame } from './film-frame.tsx';
import { edgeStyle } from './film-scale.ts';
import { edgeTextAt } from './film-strip.tsx';
import type { FrameSelection, Rail } from './frame-selection.ts';
import type { LyingStrip } from './lying-strip.ts';
import { PencilGrain, PencilLines } from './pencil-marks.tsx';

export interface StripInPocketProps {
  readonly strip: LyingStrip;
  readonly pxPerMm: number;
  readonly selection: FrameSelection;
  /** The frame that takes the focus when the grid is reached by Tab. */
  readonly tabStop: number | null;
  readonly rails: readonly Rail[];
  /** Index of the strip's first frame in its row. */
  readonly startColumn: number;
  /** Lies at a third of its light, beside a place that is shown. */
  readonly dimmed: boolean;
  readonly lit: boolean;
  /** The frame that a ring is drawn around, or null. */
  readonly ringedId: number | null;
  /** The frames can be picked. Without it the strip is only looked at. */
  readonly pickable: boolean;
}

/** A strip with its frames, rails of what is picked, and a ring around the one that was looked for. */
export const StripInPocket = memo(function StripInPocket(props: StripInPocketProps) {
  const { strip, pxPerMm, selection, tabStop, rails, startColumn, dimmed, lit, ringedId, pickable } = props;
  const lengths = strip.frames.map((frame) => frameGeometry(frame.frameFormat, strip.filmFormat).cellMm);
  const startMm = (index: number) => lengths.slice(0, Math.max(0, index)).reduce((sum, mm) => sum + mm, 0);
  return (
    <div
      className={dimmed ? 'film-strip pocket-strip pocket-strip-dimmed' : 'film-strip pocket-strip'}
      data-strip={strip.id}
      role="presentation"
    >
      {strip.frames.map((frame, index) => {
        const { perforated } = frameGeometry(frame.frameFormat, strip.filmFormat);
        const picked = selection.picked.has(frame.id);
        return (
          <FilmFrame
            key={frame.id}
            frame={frame}
            filmFormat={strip.filmFormat}
            edge={edgeStyle(pxPerMm, perforated)}
            edgeText={edgeTextAt(strip.edgeTexts, index)}
            lit={picked || lit}
            active={selection.active === frame.id}
            {...(pickable ? { column: startColumn + index + 1 } : {})}
            selected={picked}
            tabStop={tabStop === frame.id}
          />
        );
      })}
      {rails.map((rail) => (
        <span
          key={rail.from}
          className={railClass(rail)}
          style={{
            '--from': startMm(rail.from - startColumn),
            '--long': startMm(rail.to + 1 - startColumn) - startMm(rail.from - startColumn),
          }}
          aria-hidden="true"
        />
      ))}
      {ringedId === null ? null : <Ring strip={strip} frameId={ringedId} startMm={startMm} />}
    </div>
  );
});

function railClass(rail: Rail): string {
  return ['pocket-rail', rail.openLeft ? 'pocket-rail-left' : '', rail.openRight ? 'pocket-rail-right' : '']
    .filter((name) => name !== '')
    .join(' ');
}

interface RingProps {
  readonly strip: LyingStrip;
  readonly frameId: number;
  readonly startMm: (index: number) => number;
}

/** A ring of the pencil around a frame: this one. */
function Ring({ strip, frameId, startMm }: RingProps) {
  const grain = useId();
  const index = strip.frames.findIndex((frame) => frame.id === frameId);
  const frame = strip.frames[index];
  if (!frame) return null;
  const { cellMm, filmMm } = frameGeometry(frame.frameFormat, strip.filmFormat);
  const lengthMm = stripLengthMm(
    strip.filmFormat,
    strip.frames.map(({ frameFormat }) => frameFormat),
  );
  const lines = steadyRing(
    { xMm: startMm(index) + cellMm / 2, yMm: filmMm / 2, acrossMm: 0.78 * Math.max(cellMm, filmMm) },
    String(frameId),
  );
  return (
    <svg className="pencil-marks" viewBox={`0 0 ${lengthMm} ${filmMm}`} aria-hidden="true">
      <PencilGrain id={grain} />
      <PencilLines lines={lines} grain={grain} />
    </svg>
  );
}
