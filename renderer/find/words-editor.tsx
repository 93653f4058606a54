import { useState } from 'react';
import { readWordsDraft } from '../../shared/domain/search/filter-drafts.ts';
import type { SearchTree } from '../../shared/domain/search/search-tree.ts';
import { CheckBox } from '../ui/check-box.tsx';
import { TextField } from '../ui/text-field.tsx';

type WordsPart = Extract<SearchTree, { kind: 'word' | 'phrase' }>;

export interface WordsEditorProps {
  readonly part: WordsPart | null;
  readonly onPart: (part: WordsPart) => void;
  readonly fresh: boolean;
}

/** A word that may go on, or words that stand together. */
export function WordsEditor({ part, onPart, fresh }: WordsEditorProps) {
  const [draft, setDraft] = useState<string | null>(null);
  const together = part?.kind === 'phrase';
  const text = draft ?? part?.text ?? '';
  const read = readWordsDraft(text, together);
  return (
    <div className="builder-value">
      <TextField
        label="words"
        labelPlace="unseen"
        value={text}
        autoFocus={fresh}
        onChange={(next) => {
          setDraft(next);
          const words = readWordsDraft(next, together);
          if (words !== null) onPart(words);
        }}
        onBlur={() => setDraft(null)}
        error={draft !== null && draft !== '' && read === null ? 'a letter or a figure is needed' : undefined}
      />
      {part === null ? null : (
        <CheckBox
          checked={together}
          onChange={(on) => {
            const words = readWordsDraft(part.text, on);
            if (words !== null) onPart(words);
          }}
        >
          just so, standing together
        </CheckBox>
      )}
    </div>
  );
}
