import { appError } from '../../../shared/api/errors.ts';
import type { Input } from '../../../shared/api/contract.ts';
import { parseDilution } from '../../../shared/domain/development/dilution.ts';
import { offerBathDefaults, type BathDefaults } from '../../../shared/domain/development/bath-defaults.ts';
import type { BathKindValue } from '../../../shared/api/process-values.ts';
import { processKind } from '../../../shared/api/values.ts';
import type { Archive } from '../archive/archive.ts';
import { dateValues } from '../db/calendar-date.ts';
import { changeRow } from '../db/change-row.ts';
import { command, orTaken, query, type ReadableDb, type Value } from '../db/query.ts';
import { idRow } from '../db/rows.ts';
import type { HandlersOf } from '../handler.ts';
import { listBaths, requireBath, requireUsableBath, usesOfBath } from './bath-rows.ts';
import { judgeTests, rollsSinceGoodTest, testsOfBath } from './clearing.ts';
import { requireLoad, sumLoad } from './load.ts';
import { instantOrNow, localDay } from './local-day.ts';
import { chooseProcess } from './processes.ts';

/** Writes film into the ledger of a bath. Areas in cm², `at` ISO 8601. */
export function addBathUse(
  archive: Archive,
  use: {
    readonly bathId: number;
    readonly developmentId: number | null;
    readonly areaCm2: number;
    readonly weightedAreaCm2: number;
    readonly at: string;
    readonly note: string | null;
  },
): number {
  const { bathId, developmentId, areaCm2, weightedAreaCm2, at, note } = use;
  return command(
    archive.db,
    `INSERT INTO bath_use (bath_id, development_id, area_cm2, weighted_area_cm2, used_at, note)
     VALUES (:bathId, :developmentId, :areaCm2, :weightedAreaCm2, :at, :note)`,
  )({ bathId, developmentId, areaCm2, weightedAreaCm2, at, note }).id;
}

function columnsOf(
  archive: Archive,
  given: Input<'baths.change'>['change'],
): Record<string, Value | undefined> {
  const { dilution, process } = given;
  if (typeof dilution === 'string' && !parseDilution(dilution).ok) {
    const reason = 'a dilution is such as 1+9, 1+1+8 or stock';
    throw appError('value_not_valid', { field: 'dilution', value: dilution, reason });
  }
  // Asked only so that a slip of the pen is found now and not at the tank.
  if (typeof process === 'string') chooseProcess(archive.db, process, { developerC: null, baths: [] });
  return {
    name: given.name,
    kind: given.kind,
    process,
    volume_ml: given.volumeMl,
    dilution,
    capacity_cm2: given.capacityCm2,
    shelf_days: given.shelfDays,
    one_shot: given.oneShot === undefined ? undefined : Number(given.oneShot),
    added_time_json:
      given.extension === undefined || given.extension === null
        ? given.extension
        : JSON.stringify(given.extension),
    used_before_cm2: given.usedBeforeCm2,
    note: given.note,
    ...(given.mixed === undefined ? {} : dateValues('mixed', given.mixed)),
  };
}

/** The use of a bath by id, with its bath. @throws {AppError} conflict when it is gone */
function requireUse(archive: Archive, useId: number): string {
  const found = query(archive.db, idRow, 'SELECT bath_id AS id FROM bath_use WHERE id = :useId').find({
    useId,
  });
  if (!found) throw appError('conflict', { reason: 'This entry of the ledger is gone.' });
  return requireBath(archive, found.id).bath.name;
}

export const BATH_HANDLERS: HandlersOf<
  | 'baths.list'
  | 'baths.get'
  | 'baths.offer'
  | 'baths.add'
  | 'baths.change'
  | 'baths.use'
  | 'baths.changeUse'
  | 'baths.removeUse'
  | 'baths.discard'
  | 'baths.spoil'
  | 'baths.test'
> = {
  'baths.list': (archive) => listBaths(archive),

  'baths.get': (archive, { id }) => {
    const { bath, lines } = requireBath(archive, id);
    const tests = testsOfBath(archive.db, id);
    return {
      bath,
      lines,
      uses: usesOfBath(archive.db, bath),
      tests,
      clearing: judgeTests(tests),
      rollsSinceGood: bath.kind === 'fixer' ? rollsSinceGoodTest(archive.db, bath, tests) : [],
    };
  },

  'baths.offer': ({ db }, { kind, process, volumeMl }) => {
    const { capacityCm2PerLitre: perLitre, shelfDays, extension } = defaultsOf(db, kind, process);
    const capacityCm2 =
      perLitre === null || volumeMl === null
        ? null
        : { value: (perLitre.value * volumeMl) / 1000, source: perLitre.source };
    return { capacityCm2, shelfDays, extension };
  },

  'baths.add': (archive, bath) => {
    const { name } = bath;
    const mixed = bath.mixed ?? localDay(archive.now());
    return archive.undo.record(`Mix ${name}`, () =>
      orTaken('bath_name_taken', name, () => {
        const { id } = command(
          archive.db,
          'INSERT INTO bath (name, kind, created_at) VALUES (:name, :kind, :at)',
        )({ name, kind: bath.kind, at: archive.now().toISOString() });
        changeRow(archive.db, 'bath', id, columnsOf(archive, { ...bath, mixed }));
        return { id };
      }),
    );
  },

  'baths.change': (archive, { id, change }) => {
    const { bath } = requireBath(archive, id);
    archive.undo.record(`Change ${bath.name}`, () =>
      orTaken('bath_name_taken', change.name ?? bath.name, () => {
        changeRow(archive.db, 'bath', id, columnsOf(archive, change));
      }),
    );
    return {};
  },

  'baths.use': (archive, { id, rollIds, areaCm2, at, note }) => {
    const usedAt = instantOrNow(archive, at);
    const bath = requireUsableBath(archive, id, usedAt);
    const rolls = requireLoad(archive.db, rollIds);
    const load = sumLoad(rolls);
    if (load.areaCm2 + areaCm2 === 0) {
      throw appError('value_not_valid', { field: 'film', value: '0', reason: 'name rolls, or an area' });
    }
    const numbers = rolls.map((roll) => roll.number).join(', ');
    return archive.undo.record(`Use ${bath.name}`, () => ({
      id: addBathUse(archive, {
        bathId: id,
        developmentId: null,
        areaCm2: load.areaCm2 + areaCm2,
        weightedAreaCm2: weigh(bath.kind, load) + areaCm2,
        at: usedAt,
        note: note ?? (numbers === '' ? null : numbers),
      }),
    }));
  },

  'baths.changeUse': (archive, { useId, areaCm2, weightedAreaCm2, note }) => {
    const name = requireUse(archive, useId);
    archive.undo.record(`Correct the ledger of ${name}`, () =>
      changeRow(archive.db, 'bath_use', useId, {
        area_cm2: areaCm2,
        weighted_area_cm2: weightedAreaCm2,
        note,
      }),
    );
    return {};
  },

  'baths.removeUse': (archive, { useId }) => {
    const name = requireUse(archive, useId);
    archive.undo.record(`Correct the ledger of ${name}`, () => {
      command(archive.db, 'DELETE FROM bath_use WHERE id = :useId')({ useId });
    });
    return {};
  },

  'baths.discard': (archive, { id, at, reason }) => {
    const { bath } = requireBath(archive, id);
    // A spoilt bath stays spoilt from its moment on, or what it did since would lose its mark.
    if (bath.condition !== 'in use') requireUsableBath(archive, id, bath.endedAt ?? '');
    end(archive, id, `Discard ${bath.name}`, 'discarded', at, reason);
    return {};
  },

  'baths.spoil': (archive, { id, at, reason }) => {
    const { bath } = requireBath(archive, id);
    if (bath.condition === 'discarded') requireUsableBath(archive, id, instantOrNow(archive, at));
    end(archive, id, `${bath.name} is spoilt`, 'spoilt', at, reason);
    return {};
  },

  'baths.test': (archive, { id, stockId, seconds, fresh, at }) => {
    const { bath } = requireBath(archive, id);
    return archive.undo.record(`Test ${bath.name}`, () => ({
      id: command(
        archive.db,
        `INSERT INTO clearing_test (bath_id, stock_id, tested_at, seconds, fresh)
         VALUES (:id, :stockId, :at, :seconds, :fresh)`,
      )({ id, stockId, seconds, fresh: Number(fresh), at: instantOrNow(archive, at) }).id,
    }));
  },
};

/** What the named process says of a bath of this kind, and the common numbers where it says nothing. */
function defaultsOf(db: ReadableDb, kind: BathKindValue, wanted: string): BathDefaults {
  const ofKind = processKind.safeParse(wanted).data;
  if (ofKind === 'other') return { capacityCm2PerLitre: null, shelfDays: null, extension: null };
  const { process } = chooseProcess(db, wanted, { developerC: null, baths: [] });
  const own = process.steps.find((step) => step.bath === kind && step.bathFacts !== undefined)?.bathFacts;
  const common = offerBathDefaults(kind, process.family);
  return {
    capacityCm2PerLitre: own?.capacityCm2PerLitre ?? common.capacityCm2PerLitre,
    shelfDays: own?.shelfDays ?? common.shelfDays,
    extension: own?.extension ?? common.extension,
  };
}

/** How much of a bath a load uses up, cm²: only a bath that fixes minds the film's factor. */
export function weigh(
  kind: string,
  load: { readonly areaCm2: number; readonly weightedAreaCm2: number },
): number {
  return kind === 'fixer' || kind === 'bleach_fix' ? load.weightedAreaCm2 : load.areaCm2;
}

function end(
  archive: Archive,
  id: number,
  label: string,
  state: 'discarded' | 'spoilt',
  at: string | null,
  reason: string | null,
): void {
  archive.undo.record(label, () =>
    changeRow(archive.db, 'bath', id, {
      state,
      ended_at: instantOrNow(archive, at),
      ended_reason: reason,
    }),
  );
}
