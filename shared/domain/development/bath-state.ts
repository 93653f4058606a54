import { formatDuration } from '../../units/duration.ts';
import { ROLL_AREA_CM2 } from '../film/film-area.ts';
import { findBathAge, findDaysPastShelf } from './bath-age.ts';
import type { Bath, BathReckoning } from './bath-ledger.ts';
import { shown } from './working.ts';

function count(number: string, one: string, many: string): string {
  return `${number} ${number === '1' ? one : many}`;
}

function rollsText({ rollsDone }: BathReckoning, capacityCm2: number | null): string {
  if (capacityCm2 === null) return count(shown(rollsDone, 1), 'roll', 'rolls');
  const capacity = shown(capacityCm2 / ROLL_AREA_CM2, 1);
  return `${shown(rollsDone, 1)} of ${count(capacity, 'roll', 'rolls')}`;
}

function ageText(bath: Bath, today: string): string {
  const age = findBathAge(bath, today);
  if (age === null) return 'day of mixing not known';
  const { leastDays, mostDays } = age;
  if (mostDays < 0) return 'day of mixing lies ahead';
  if (mostDays === 0) return 'mixed today';
  if (leastDays === mostDays) return `mixed ${count(String(mostDays), 'day', 'days')} ago`;
  return `mixed ${Math.max(0, leastDays)} to ${mostDays} days ago`;
}

/**
 * The state of a bath in words, such as “4.2 of 8 rolls, mixed 23 days ago, next roll 3:31”. `today` and `endedDay`
 * are `YYYY-MM-DD` where the user is; `nextSeconds` is what the next roll needs, null when there is no such time.
 * `isSpent`: the latest clearing test of a film took twice as long as the fresh one.
 */
export function describeBath(
  bath: Bath,
  reckoning: BathReckoning,
  today: string,
  endedDay: string | null,
  nextSeconds: number | null,
  isSpent = false,
): string {
  const parts = [rollsText(reckoning, bath.capacityCm2), ageText(bath, today)];
  if (bath.state !== 'in use') {
    return [endedDay === null ? bath.state : `${bath.state} since ${endedDay}`, ...parts].join(', ');
  }
  const daysPast = findDaysPastShelf(bath, today) ?? 0;
  if (daysPast > 0) parts.push(`${count(String(daysPast), 'day', 'days')} past its shelf life`);
  if (reckoning.areaLeftCm2 === 0) parts.push('nothing left');
  if (isSpent) parts.push('spent by its clearing test');
  if (nextSeconds !== null && !isSpent) parts.push(`next roll ${formatDuration(nextSeconds)}`);
  return parts.join(', ');
}
