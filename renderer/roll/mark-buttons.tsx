import type { Frame, PencilMark } from '../../shared/api/methods/film-methods.ts';
import { PencilMarks } from '../film/pencil-marks.tsx';
import { isMarked } from './use-marks.ts';
import { MARK_KINDS } from './roll-words.ts';
import './mark-buttons.css';

export interface MarkButtonsProps {
  readonly frames: readonly Frame[];
  readonly onMark: (kind: PencilMark['kind']) => void;
  readonly busy: boolean;
}

/** The four things the pencil draws, as it draws them, each with its meaning and its key. */
export function MarkButtons({ frames, onMark, busy }: MarkButtonsProps) {
  return (
    <div className="mark-buttons" role="group" aria-label="Pencil marks">
      {MARK_KINDS.map(({ kind, means, looks, key }) => (
        <button
          key={kind}
          type="button"
          className="mark-button"
          aria-pressed={isMarked(frames, kind)}
          aria-keyshortcuts={key}
          aria-disabled={busy || undefined}
          onClick={() => {
            if (!busy) onMark(kind);
          }}
        >
          <span className="mark-button-drawing">
            <PencilMarks
              marks={[sample(kind)]}
              seed={`button ${kind}`}
              widthMm={kind === 'dot' ? 9 : 18}
              heightMm={kind === 'dot' ? 6 : 12}
              thickness={0.9}
            />
          </span>
          <span>
            {means}
            <span className="unseen">: {looks}</span> <kbd aria-hidden="true">{key}</kbd>
          </span>
        </button>
      ))}
    </div>
  );
}

function sample(kind: PencilMark['kind']): PencilMark {
  return kind === 'crop'
    ? { kind, x: 0.25, y: 0.2, width: 0.5, height: 0.55 }
    : { kind, x: null, y: null, width: null, height: null };
}
