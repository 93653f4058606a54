import type { ProcessKind } from '../../../shared/api/values.ts';
import { C41_DEVELOPER_C } from '../../../shared/domain/development/meant-temperature.ts';
import { recordCorrections } from '../archive/corrections.ts';
import { dateValues, readDate } from '../db/calendar-date.ts';
import { changeRow } from '../db/change-row.ts';
import { command } from '../db/query.ts';
import { requireRollFacts } from '../film/roll-rows.ts';
import type { HandlersOf } from '../handler.ts';
import { addBathUse, BATH_HANDLERS, weigh } from './baths.ts';
import { requireUsableBath } from './bath-rows.ts';
import { checkTemperature } from './doubtful-temperature.ts';
import { listDevelopments, requireDetails, requireDevelopment } from './development-rows.ts';
import { markDeveloped } from './mark-developed.ts';
import { requireLoad, sumLoad } from './load.ts';
import { PROCESS_HANDLERS } from './processes.ts';
import { RUN_HANDLERS } from './runs.ts';
import { TANK_HANDLERS } from './tanks.ts';

const DEVELOPER_KINDS: readonly string[] = ['developer', 'first_developer', 'colour_developer'];

/**
 * What a developer usually has, °C, to ask about a slip of the keyboard: C-41 as published (Kodak Z-131, Table 4-1),
 * black-and-white at 20 °C (NAVEDTRA 14209 p. 10-15); nothing is asked where nobody knows.
 */
const USUAL_DEVELOPER_C: Readonly<Record<ProcessKind, number | null>> = {
  c41: C41_DEVELOPER_C,
  bw: 20,
  e6: null,
  ecn2: null,
  other: null,
};

/** When a development of a day only known by date used its baths: the noon of that day, where the user is. */
function noonOf(earliest: string | null, now: Date): string {
  return earliest === null ? now.toISOString() : new Date(`${earliest}T12:00:00`).toISOString();
}

const RECORD_HANDLERS: HandlersOf<
  'developments.list' | 'developments.get' | 'developments.record' | 'developments.change'
> = {
  'developments.list': ({ db }) => listDevelopments(db),
  'developments.get': ({ db }, { id }) => requireDetails(db, id),

  'developments.record': (archive, development) => {
    const { developerTempC, process, sure } = development;
    if (developerTempC !== null) checkTemperature(developerTempC, USUAL_DEVELOPER_C[process], sure);
    return archive.undo.record('Record a development', () => {
      for (const rollId of development.rollIds) requireRollFacts(archive.db, rollId);
      const usedAt = noonOf(readDate(development.date, 'date').earliest, archive.now());
      const baths = development.bathIds.map((id) => requireUsableBath(archive, id, usedAt));
      const developer = baths.find((bath) => DEVELOPER_KINDS.includes(bath.kind)) ?? null;
      const { id } = command(
        archive.db,
        `INSERT INTO development (process, state, date_edtf, date_typed, date_earliest, date_latest, push_stops,
           developer_seconds, developer_temp_c, developer_bath_id, developer_used_before_cm2, note, created_at)
         VALUES (:process, 'done', :date_edtf, :date_typed, :date_earliest, :date_latest, :pushStops,
           :developerSeconds, :developerTempC, :developerBathId, :usedBeforeCm2, :note, :at)`,
      )({
        process: development.process,
        ...dateValues('date', development.date),
        pushStops: development.pushStops,
        developerSeconds: development.developerSeconds,
        developerTempC: development.developerTempC,
        developerBathId: developer?.id ?? null,
        usedBeforeCm2: developer?.areaDoneCm2 ?? null,
        note: development.note,
        at: archive.now().toISOString(),
      });
      const link = command(
        archive.db,
        'INSERT INTO development_roll (development_id, roll_id) VALUES (:id, :rollId) ON CONFLICT DO NOTHING',
      );
      for (const rollId of development.rollIds) {
        link({ id, rollId });
        markDeveloped(archive, rollId, development.date);
      }
      if (baths.length > 0) {
        const load = sumLoad(requireLoad(archive.db, development.rollIds));
        for (const bath of baths) {
          const weightedAreaCm2 = weigh(bath.kind, load);
          const { areaCm2 } = load;
          const use = {
            bathId: bath.id,
            developmentId: id,
            areaCm2,
            weightedAreaCm2,
            at: usedAt,
            note: null,
          };
          addBathUse(archive, use);
        }
      }
      return { id };
    });
  },

  'developments.change': (archive, { id, change, sure }) => {
    const { process, developerNominalTempC } = requireDevelopment(archive.db, id);
    const { date, pushStops, developerSeconds, developerTempC, who, place, note } = change;
    if (typeof developerTempC === 'number') {
      checkTemperature(developerTempC, developerNominalTempC ?? USUAL_DEVELOPER_C[process], sure);
    }
    const columns = {
      ...(date === undefined ? {} : dateValues('date', date)),
      push_stops: pushStops,
      developer_seconds: developerSeconds,
      developer_temp_c: developerTempC,
      who,
      place,
      note,
    };
    archive.undo.record('Correct a development', () => {
      recordCorrections(archive, 'development', id, columns);
      changeRow(archive.db, 'development', id, columns);
    });
    return {};
  },
};

export const DEVELOPMENT_HANDLERS = {
  ...RECORD_HANDLERS,
  ...RUN_HANDLERS,
  ...BATH_HANDLERS,
  ...PROCESS_HANDLERS,
  ...TANK_HANDLERS,
};
