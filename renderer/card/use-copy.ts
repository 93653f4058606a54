import { useState } from 'react';

type Outcome = 'copied' | 'refused' | null;

/** Puts text on the clipboard, and says what came of it for a few seconds. */
export function useCopy(): {
  readonly outcome: Outcome;
  readonly copy: (text: string) => Promise<void>;
} {
  const [outcome, setOutcome] = useState<Outcome>(null);
  async function copy(text: string): Promise<void> {
    setOutcome(null);
    try {
      await navigator.clipboard.writeText(text);
      setOutcome('copied');
    } catch {
      // A browser may forbid it, or have no clipboard at all: then the text is shown instead.
      setOutcome('refused');
    }
  }
  return { outcome, copy };
}
