import type { FrameOrigin } from '../api/methods/origin-methods.ts';
import { daysBetween } from '../domain/development/bath-age.ts';
import { ROLL_AREA_CM2 } from '../domain/film/film-area.ts';
import { formatDuration } from '../units/duration.ts';
import { describeDate } from './calendar-words.ts';
import { formatTemperature, PROCESS_NAMES } from './format.ts';
import { fact, tenths, type OriginFact } from './origin-fact.ts';

/** The development of the frame's roll: `2024-04-27, C-41; push 1 stop`. */
export function developmentFact({ roll, development }: FrameOrigin): OriginFact {
  if (development === null) {
    const lab = roll.lab === null ? null : `by ${roll.lab}`;
    return fact(
      'development',
      'Development',
      roll.developed === null ? null : describeDate(roll.developed),
      [lab],
      'none written down',
    );
  }
  const { date, process, processName, pushStops, note } = development;
  const push =
    pushStops === 0
      ? null
      : `${pushStops > 0 ? 'push' : 'pull'} ${tenths(Math.abs(pushStops))} ${Math.abs(pushStops) === 1 ? 'stop' : 'stops'}`;
  const what = processName ?? PROCESS_NAMES[process];
  return fact(
    'development',
    'Development',
    [date === null ? `no. ${development.id}` : describeDate(date), what].join(', '),
    [push, note],
    '',
  );
}

/** The developer's temperature against what it was meant to be, and its time: `37.2 °C, 0.6 under 37.8 °C, 3:31`. */
export function developerFact({ development }: FrameOrigin): OriginFact | null {
  if (development === null) return null;
  const { developerTempC, developerNominalTempC, developerSeconds } = development;
  const off =
    developerTempC === null || developerNominalTempC === null
      ? null
      : Math.round((developerTempC - developerNominalTempC) * 10) / 10;
  const against =
    off === null || developerNominalTempC === null
      ? null
      : off === 0
        ? 'as it was meant'
        : `${Math.abs(off).toFixed(1)} ${off < 0 ? 'under' : 'over'} ${formatTemperature(developerNominalTempC)}`;
  return fact(
    'developer',
    'Developer',
    developerTempC === null ? null : formatTemperature(developerTempC),
    [against, developerSeconds === null ? null : `${formatDuration(developerSeconds)} minutes`],
    'neither temperature nor time written down',
  );
}

function rollsOf(areaCm2: number): number {
  return areaCm2 / ROLL_AREA_CM2;
}

/** What the developer had done before: `4 rolls went through before, of 8`. */
export function bathFact({ development }: FrameOrigin): OriginFact | null {
  if (development === null) return null;
  const { bath, bathMixed, bathCapacityCm2, usedBeforeCm2, date } = development;
  const before = usedBeforeCm2 === null ? null : rollsOf(usedBeforeCm2);
  const of = bathCapacityCm2 === null ? '' : `, of ${tenths(rollsOf(bathCapacityCm2))} that it can do`;
  const used =
    before === null
      ? null
      : before === 0
        ? `nothing went through before${of}`
        : `${tenths(before)} ${tenths(before) === '1' ? 'roll' : 'rolls'} of film went through before${of}`;
  const [mixedLast, day] = [bathMixed?.latest ?? null, date?.latest ?? null];
  const days = mixedLast === null || day === null ? null : daysBetween(mixedLast, day);
  return fact(
    'bath',
    'Bath',
    bath?.name ?? null,
    [
      bathMixed === null ? null : `mixed ${describeDate(bathMixed)}`,
      days === null || days < 0 ? null : days === 1 ? '1 day old' : `${days} days old`,
      used,
      ...development.doubts.map(({ bath: { name } }) => `${name} is in doubt: it was ended before`),
    ],
    'none written down',
  );
}
