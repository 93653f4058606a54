import { accept, refuse } from '../checked.ts';
import type { Source } from './source.ts';
import type { WorkedOrNot } from './working.ts';
import { shown, shownTime } from './working.ts';

/**
 * How a bath's time grows with the film that has been through it. `percent`: so many per cent of the time for
 * every roll before. `steps`: a table of times from a roll's number on (the first roll is number 1); it works as a
 * ratio to its own first row, so that it also serves other temperatures and pushes.
 */
export type ExtensionRule =
  | { readonly kind: 'percent'; readonly percentPerRoll: number; readonly source: Source }
  | {
      readonly kind: 'steps';
      readonly rows: readonly { readonly fromRoll: number; readonly seconds: number }[];
      readonly source: Source;
    };

/** Why the added time cannot be worked out. */
export type ExtensionRefusal = 'rolls_not_real' | 'extension_rule_not_real';

/** Whether a rule can be worked with: no per cent below nought; a table begins at roll 1 and its times do not fall. */
export function isExtensionReal(rule: ExtensionRule): boolean {
  if (rule.kind === 'percent') return Number.isFinite(rule.percentPerRoll) && rule.percentPerRoll >= 0;
  const rows = rule.rows.toSorted((a, b) => a.fromRoll - b.fromRoll);
  const [first] = rows;
  const rising = rows.every((row, i) => row.seconds >= (rows[i - 1]?.seconds ?? row.seconds));
  return first !== undefined && first.fromRoll === 1 && first.seconds > 0 && rising;
}

/**
 * A time in seconds lengthened for `rollsDone` rolls of 80 sq in (≥ 0, parts of rolls count) that went through the
 * bath before. No rule and no roll leave it as it is and write no line.
 */
export function applyExtension(
  seconds: number,
  rollsDone: number,
  rule: ExtensionRule | null,
): WorkedOrNot<number, ExtensionRefusal> {
  if (!(Number.isFinite(rollsDone) && rollsDone >= 0)) return refuse('rolls_not_real');
  if (rule === null || rollsDone === 0) return accept({ value: seconds, lines: [] });
  if (!isExtensionReal(rule)) return refuse('extension_rule_not_real');
  const label = `After ${shown(rollsDone, 1)} ${rollsDone === 1 ? 'roll' : 'rolls'} in this bath`;

  if (rule.kind === 'percent') {
    const value = (seconds * (100 + rule.percentPerRoll * rollsDone)) / 100;
    const formula = `${shownTime(seconds)} × (1 + ${shown(rule.percentPerRoll)} % × ${shown(rollsDone)})`;
    return accept({ value, lines: [{ label, formula, value, unit: 's', source: rule.source }] });
  }

  const rows = rule.rows.toSorted((a, b) => a.fromRoll - b.fromRoll);
  const [first] = rows;
  if (first === undefined) return refuse('extension_rule_not_real');
  // A bath that has done 3.5 rolls is working on its fourth.
  const number = Math.floor(rollsDone) + 1;
  const row = rows.findLast((candidate) => candidate.fromRoll <= number) ?? first;
  const value = (seconds * row.seconds) / first.seconds;
  const formula = `${shownTime(seconds)} × ${shownTime(row.seconds)} / ${shownTime(first.seconds)} (roll ${number})`;
  return accept({ value, lines: [{ label, formula, value, unit: 's', source: rule.source }] });
}
