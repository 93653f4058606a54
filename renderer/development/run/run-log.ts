import { useState } from 'react';
import { isAppError } from '../../../shared/api/errors.ts';
import type { Given } from '../../../shared/api/contract.ts';
import { describeError } from '../../../shared/text/describe-error.ts';
import { useCommand } from '../../api/use-command.ts';

export type Happening = Given<'developments.note'>['event'];

/** A temperature that the engine asks about before it takes it. */
export interface Doubt {
  readonly celsius: number;
  readonly atMs: number;
  readonly question: string;
}

/** The log of a run, to be added to. */
export interface RunLog {
  /** Notes that something happened, now unless `atMs` says when; answers whether it was noted. */
  note(event: Happening, more?: { atMs?: number; corrects?: number; sure?: boolean }): Promise<boolean>;
  readonly doubt: Doubt | null;
  dropDoubt(): void;
  /** Why the last thing was not noted. */
  readonly trouble: string | null;
  readonly pending: boolean;
}

/** The log of the run `id`. The moment is that of the press, not of the answer. */
export function useRunLog(id: number): RunLog {
  const command = useCommand('developments.note', 'here');
  const [doubt, setDoubt] = useState<Doubt | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  return {
    doubt,
    trouble,
    pending: command.pending,
    dropDoubt: () => setDoubt(null),
    async note(event, { atMs = Date.now(), corrects, sure = false } = {}) {
      const ended = await command.run({ id, event, atMs, corrects: corrects ?? null, sure });
      setDoubt(null);
      setTrouble(null);
      if (ended.ok) return true;
      const words = describeError(ended.error);
      if (event.kind === 'temperature_read' && isAppError(ended.error, 'temperature_doubtful')) {
        setDoubt({ celsius: event.celsius, atMs, question: `${words.detail} ${words.advice}` });
      } else setTrouble(`${words.title}. ${words.detail} ${words.advice}`);
      return false;
    },
  };
}
