import { useState } from 'react';
import type { Frame } from '../../shared/api/methods/film-methods.ts';
import { isUnadjusted, UNADJUSTED } from '../../shared/domain/colour/look.ts';
import { useCommand } from '../api/use-command.ts';
import { Button } from '../ui/button.tsx';
import { ChoiceRow } from '../ui/choice-row.tsx';
import { Keys } from '../ui/keys.tsx';
import { ScaleField } from '../ui/scale-field.tsx';
import type { Done } from './done-line.tsx';
import { GreyLoupe } from './grey-loupe.tsx';
import type { PlaceInScan } from './pick-geometry.ts';
import { ReadingLines } from './reading-lines.tsx';
import type { Looking } from './use-look.ts';
import './adjust-panel.css';

export interface AdjustPanelProps {
  readonly frame: Frame;
  readonly rollNumber: string;
  readonly looking: Looking;
  /** Where something grey is being picked, or null while none is. */
  readonly picking: PlaceInScan | null;
  readonly onPicking: (place: PlaceInScan | null) => void;
  readonly onDone: (done: Done) => void;
  readonly onClose: () => void;
}

const SCOPES = [
  { value: 'roll', label: 'the whole roll' },
  { value: 'frame', label: 'this frame only' },
] as const;

/** Brightness, contrast and a grey for the whole roll or one frame. What is shown is kept only when asked to. */
export function AdjustPanel(props: AdjustPanelProps) {
  const { frame, rollNumber, looking, picking, onPicking, onDone, onClose } = props;
  const { look, adjust, changed } = looking;
  const ofFrames = useCommand('looks.ofFrames');
  const ofRoll = useCommand('looks.ofRoll');
  const [chosen, setChosen] = useState<'roll' | 'frame' | null>(null);
  if (looking.error) return <p className="adjust-panel">{looking.error.message}</p>;
  if (!look) return <p className="adjust-panel">The roll is being measured…</p>;
  const scope = chosen ?? (look.frame === null ? 'roll' : 'frame');
  const pending = ofFrames.pending || ofRoll.pending;
  const isGrey = look.rendering.kind === 'monochrome-negative';

  async function keep(): Promise<void> {
    if (!look || pending) return;
    const ended =
      scope === 'roll'
        ? await ofRoll.run({ rollId: look.rollId, adjust, follow: [frame.id] })
        : await ofFrames.run({ frameIds: [frame.id], adjust });
    if (!ended.ok) return;
    const what = scope === 'roll' ? `roll ${rollNumber}` : `frame ${frame.label}`;
    onDone({ says: `The look of ${what} is kept.`, steps: 1 });
  }
  async function follow(): Promise<void> {
    const ended = await ofFrames.run({ frameIds: [frame.id], adjust: null });
    if (!ended.ok) return;
    looking.leave();
    setChosen(null);
    onDone({ says: `Frame ${frame.label} follows its roll.`, steps: 1 });
  }
  return (
    <section className="adjust-panel" aria-label="Adjust">
      <header>
        <h3>How it is shown</h3>
        <Button look="quiet" onPress={onClose} keys="A">
          Close
        </Button>
      </header>
      <ScaleField
        label="Brightness"
        value={adjust.brightnessStops}
        least={-4}
        most={4}
        step={0.1}
        middle={0}
        say={(value) =>
          value === 0 ? 'as it is' : `${Math.abs(value)} stops ${value > 0 ? 'lighter' : 'darker'}`
        }
        onChange={(brightnessStops) => looking.set({ brightnessStops })}
      />
      <ScaleField
        label="Contrast"
        value={adjust.contrast}
        least={0.5}
        most={2}
        step={0.05}
        middle={1}
        say={(value) => (value === 1 ? 'as it is' : `${value} times`)}
        onChange={(contrast) => looking.set({ contrast })}
      />
      {isGrey ? null : (
        <div className="adjust-grey">
          <Button
            pressed={picking !== null}
            keys="G"
            onPress={() => onPicking(picking === null ? { x: 0.5, y: 0.5 } : null)}
          >
            Pick something grey
          </Button>
          <span className="numbers">
            {isUnadjusted({ ...UNADJUSTED, grey: adjust.grey })
              ? 'none picked'
              : adjust.grey.map((factor) => factor.toFixed(2)).join(' ')}
          </span>
        </div>
      )}
      {picking === null ? null : (
        <>
          <GreyLoupe looking={looking} place={picking} />
          <p className="adjust-words">
            Press on something that was grey. Arrows move the mark, with <Keys keys="Shift" /> in small steps;{' '}
            <Keys keys="Enter" /> picks.
          </p>
        </>
      )}
      <ChoiceRow label="For" options={SCOPES} value={scope} onChange={setChosen} />
      {scope === 'roll' && look.ownLooks > (look.frame === null ? 0 : 1) ? (
        <p className="adjust-words">
          Frames with a look of their own keep it: {look.ownLooks - (look.frame === null ? 0 : 1)} of this
          roll.
        </p>
      ) : null}
      <div className="adjust-buttons">
        <Button
          look="main"
          busy={pending}
          onPress={() => void keep()}
          {...(changed || chosen !== null ? {} : { unavailable: 'Nothing is changed.' })}
        >
          Keep this look
        </Button>
        <Button look="quiet" onPress={() => looking.set(UNADJUSTED)}>
          As it came
        </Button>
        {changed ? (
          <Button look="quiet" onPress={looking.leave}>
            As kept
          </Button>
        ) : null}
        {look.frame === null ? null : (
          <Button look="quiet" onPress={() => void follow()}>
            Follow the roll
          </Button>
        )}
      </div>
      <ReadingLines look={look} onDone={onDone} />
      <p className="adjust-words">
        The scan itself is not touched. Sheets and pictures written show the same.
      </p>
    </section>
  );
}
