import { z } from 'zod';
import { appError } from '../../../shared/api/errors.ts';
import type { Output } from '../../../shared/api/contract.ts';
import { parseRollPattern } from '../../../shared/domain/numbering/roll-number.ts';
import { describeReason } from '../../../shared/text/describe-reason.ts';
import { command, query } from '../db/query.ts';
import type { HandlersOf } from '../handler.ts';
import type { Archive } from './archive.ts';

type Settings = Output<'settings.get'>;

/** What holds until the user says otherwise. */
const DEFAULTS: Settings = {
  numberPattern: '{year}-{n:3}',
  temperatureUnit: 'C',
  lengthUnit: 'mm',
  paper: 'a4',
};

const settingRow = z.object({ name: z.string(), value: z.string() });

function allSettings(archive: Archive): Settings {
  const rows = query(archive.db, settingRow, 'SELECT name, value FROM setting').all();
  const stored = Object.fromEntries(rows.map((row) => [row.name, row.value]));
  const temperature = stored['temperatureUnit'] === 'F' ? 'F' : DEFAULTS.temperatureUnit;
  return {
    numberPattern: stored['numberPattern'] ?? DEFAULTS.numberPattern,
    temperatureUnit: temperature,
    lengthUnit: stored['lengthUnit'] === 'in' ? 'in' : DEFAULTS.lengthUnit,
    paper: stored['paper'] ?? DEFAULTS.paper,
  };
}

/** One setting of the archive. */
export function getSetting<Name extends keyof Settings>(archive: Archive, name: Name): Settings[Name] {
  return allSettings(archive)[name];
}

export const SETTING_HANDLERS: HandlersOf<'settings.get' | 'settings.set'> = {
  'settings.get': (archive) => allSettings(archive),
  'settings.set': (archive, change) => {
    const pattern = change.numberPattern === undefined ? null : parseRollPattern(change.numberPattern);
    if (pattern !== null && !pattern.ok) {
      const reason = describeReason(pattern.reason);
      throw appError('value_not_valid', { field: 'numbering', value: change.numberPattern ?? '', reason });
    }
    const set = command(
      archive.db,
      `INSERT INTO setting (name, value) VALUES (:name, :value)
       ON CONFLICT (name) DO UPDATE SET value = excluded.value`,
    );
    for (const [name, value] of Object.entries(change)) if (value !== undefined) set({ name, value });
    return allSettings(archive);
  },
};
