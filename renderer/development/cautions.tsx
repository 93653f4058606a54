import { useState } from 'react';
import { cautionKey } from '../../shared/api/process-values.ts';
import {
  CAUTION_RULE,
  cautionsStillToShow,
  type Caution,
  type CautionKey,
} from '../../shared/domain/development/cautions.ts';
import { Button } from '../ui/button.tsx';

const KEY = 'edgeprint.cautions-shown';

/** The cautions that were read in this session; a new window is a new session. */
function readShown(): CautionKey[] {
  return (window.sessionStorage.getItem(KEY) ?? '')
    .split(',')
    .flatMap((key) => cautionKey.safeParse(key).data ?? []);
}

/** The cautions of these keys that nobody has read in this session yet, and how to note that they were. */
export function useCautions(keys: readonly CautionKey[]): {
  readonly cautions: readonly Caution[];
  markRead(): void;
} {
  const [shown, setShown] = useState(readShown);
  const cautions = cautionsStillToShow(keys, shown);
  return {
    cautions,
    markRead() {
      const all = [...new Set([...readShown(), ...cautions.map((caution) => caution.key)])];
      window.sessionStorage.setItem(KEY, all.join(','));
      setShown(all);
    },
  };
}

/** The cautions of these keys, until they are read; then nothing, for the rest of the session. */
export function Cautions({ keys }: { readonly keys: readonly CautionKey[] }) {
  const { cautions, markRead } = useCautions(keys);
  if (cautions.length === 0) return null;
  return (
    <aside className="cautions" aria-label="Mind">
      <ul>
        {cautions.map((caution) => (
          <li key={caution.key}>
            <strong>{caution.title}.</strong> {caution.text}
          </li>
        ))}
      </ul>
      <p className="plan-words">{CAUTION_RULE}</p>
      <Button onPress={markRead}>Read</Button>
    </aside>
  );
}
