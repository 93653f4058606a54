import type { LookOfFrame } from '../../shared/api/methods/look-methods.ts';
import { useCommand } from '../api/use-command.ts';
import { Select } from '../ui/select.tsx';
import type { Done } from './done-line.tsx';
import { count } from './roll-words.ts';

const POLARITIES = [
  { value: 'auto', label: 'as its frames say' },
  { value: 'negative', label: 'as negatives' },
  { value: 'positive', label: 'as positives' },
] as const;

const TONES = [
  { value: 'auto', label: 'as its frames say' },
  { value: 'colour', label: 'colour' },
  { value: 'monochrome', label: 'black-and-white' },
] as const;

const READ_WORDS = { negative: 'negatives', positive: 'positives', unknown: 'neither surely' } as const;
const COLOUR_WORDS = {
  colour: 'in colour',
  monochrome: 'in black-and-white',
  toned: 'toned',
  unknown: 'of no sure colour',
} as const;
const OWN_WORDS = {
  negative: 'looks like a negative',
  positive: 'looks like a positive',
  undecided: 'could be either',
  blank: 'is blank and says nothing',
} as const;

export interface ReadingLinesProps {
  readonly look: LookOfFrame;
  readonly onDone: (done: Done) => void;
}

/** How the scans of the roll are read, what speaks for it frame by frame, and setting it. */
export function ReadingLines({ look, onDone }: ReadingLinesProps) {
  const read = useCommand('looks.read');
  const { rollId, reading } = look;
  const { meant, frames, own } = reading;

  async function say(change: Partial<LookOfFrame['reading']['meant']>): Promise<void> {
    const ended = await read.run({ rollId, ...meant, ...change });
    if (ended.ok) onDone({ says: 'The roll is read anew.', steps: 1 });
  }
  const spoken = [
    frames.negative > 0 ? `${count(frames.negative, 'frame')} like negatives` : null,
    frames.positive > 0 ? `${count(frames.positive, 'frame')} like positives` : null,
    frames.undecided > 0 ? `${frames.undecided} undecided` : null,
    frames.blank > 0 ? `${frames.blank} blank` : null,
  ].filter((part) => part !== null);
  return (
    <details className="reading-lines">
      <summary>
        The roll’s scans are taken for {READ_WORDS[reading.polarity]} {COLOUR_WORDS[reading.colour]}
      </summary>
      <p>
        By themselves {spoken.length === 0 ? 'its frames say nothing' : `they look: ${spoken.join(', ')}`}.
        {own === null ? '' : ` This one ${OWN_WORDS[own]}.`}
      </p>
      <Select
        label="Read scans"
        options={POLARITIES}
        value={meant.polarity}
        unavailable={read.pending}
        onChange={(polarity) => void say({ polarity })}
      />
      <Select
        label="Colour"
        options={TONES}
        value={meant.tone}
        unavailable={read.pending}
        onChange={(tone) => void say({ tone })}
      />
    </details>
  );
}
