import type { DrawnFrame } from './drawn-frame.ts';
import { frameGeometry } from './film-geometry.ts';
import { FilmFrame } from './film-frame.tsx';
import { edgeStyle, filmScale } from './film-scale.ts';

export interface FilmStripProps {
  /** What the strip shows, for screen readers: `Frames 23 to 25 of 2024-031, 24 lit`. */
  readonly label: string;
  readonly filmFormat: string;
  readonly frames: readonly DrawnFrame[];
  readonly pxPerMm: number;
  /** What the film's edge says, in turn along it: stock, emulsion. */
  readonly edgeTexts?: readonly string[];
  /** The frames with light on them. */
  readonly litIds?: ReadonlySet<number>;
  /** Whether the frames without light are left in the dark. */
  readonly dimOthers?: boolean;
}

/** A strip, or a part of one, that is only looked at: one picture for a screen reader. */
export function FilmStrip(props: FilmStripProps) {
  const { label, filmFormat, frames, pxPerMm, edgeTexts = [], litIds, dimOthers = false } = props;
  return (
    <div role="img" aria-label={label} className="film-strip" style={filmScale(pxPerMm)}>
      {frames.map((frame, index) => {
        const { perforated } = frameGeometry(frame.frameFormat, filmFormat);
        const lit = litIds?.has(frame.id) === true;
        return (
          <FilmFrame
            key={frame.id}
            frame={frame}
            filmFormat={filmFormat}
            edge={edgeStyle(pxPerMm, perforated)}
            edgeText={edgeTextAt(edgeTexts, index)}
            lit={lit}
            dimmed={dimOthers && !lit}
          />
        );
      })}
    </div>
  );
}

/** What the edge says at the frame of that index: the texts in turn, at every second frame. */
export function edgeTextAt(edgeTexts: readonly string[], index: number): string | null {
  if (index % 2 === 1 || edgeTexts.length === 0) return null;
  return edgeTexts[(index / 2) % edgeTexts.length] ?? null;
}
