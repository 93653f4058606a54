import { z } from 'zod';
import { appError } from '../../../shared/api/errors.ts';
import type { ProcessEntry } from '../../../shared/api/methods/bath-methods.ts';
import { processValue } from '../../../shared/api/process-values.ts';
import { processKind, type ProcessKind } from '../../../shared/api/values.ts';
import { checkProcess, type Process } from '../../../shared/domain/development/process.ts';
import { SHIPPED_PROCESSES } from '../../../shared/domain/development/processes/shipped.ts';
import { describeProcessFault } from '../../../shared/text/describe-development.ts';
import { command, orTaken, query, type ReadableDb } from '../db/query.ts';
import type { HandlersOf } from '../handler.ts';

/** The kind that rolls and lists speak of, for a family of processes. */
const KIND_OF: Readonly<Record<Process['family'], ProcessKind>> = {
  colour_negative: 'c41',
  black_and_white: 'bw',
  colour_reversal: 'e6',
  motion_picture_negative: 'ecn2',
};

const ownRow = z.object({
  id: z.number(),
  name: z.string(),
  kind: processKind,
  copiedFrom: z.string().nullable(),
  json: z.string(),
});

function shippedEntry(process: Process): ProcessEntry {
  const { key, name, family } = process;
  return { id: null, key, name, kind: KIND_OF[family], copiedFrom: null, process };
}

/** Every process: the user's own by name, then the shipped ones. */
export function listProcesses(db: ReadableDb): ProcessEntry[] {
  const own = query(
    db,
    ownRow,
    `SELECT id, name, kind, copied_from AS copiedFrom, process_json AS json FROM process ORDER BY fold(name), id`,
  )
    .all()
    .map(({ json, ...row }): ProcessEntry => {
      const key = `own-${row.id}`;
      return { ...row, key, process: { ...processValue.parse(JSON.parse(json)), key, name: row.name } };
    });
  return [...own, ...SHIPPED_PROCESSES.map(shippedEntry)];
}

/** What decides between the shipped processes of one kind. */
export interface ProcessCircumstances {
  readonly developerC: number | null;
  /** What the chosen baths say of themselves. */
  readonly baths: readonly { readonly kind: string; readonly process: string | null }[];
}

/** The process taken, and why where only a kind was named. */
export interface ChosenProcess extends ProcessEntry {
  readonly why: string;
}

/** A temperature typed to a tenth meets a tolerance of 0.15 within this. */
const SLACK_C = 1e-6;

function chooseC41(
  entries: readonly ProcessEntry[],
  { developerC, baths }: ProcessCircumstances,
): ChosenProcess {
  const shipped = (key: string) => {
    const found = entries.find((entry) => entry.key === key);
    if (!found) throw new Error(`A shipped process is gone: ${key}`);
    return found;
  };
  const published = shipped('c41-as-published');
  const twoBath = shipped('c41-two-bath');
  if (baths.some((bath) => bath.kind === 'bleach_fix')) {
    return { ...twoBath, why: 'a bleach-fix was chosen, so it is the process in two baths' };
  }
  if (baths.some((bath) => bath.kind === 'bleach' || bath.kind === 'fixer')) {
    return { ...published, why: 'a separate bleach or fixer was chosen' };
  }
  const temperature = published.process.steps[0]?.temperature;
  const low = (temperature?.lowC ?? 0) - SLACK_C;
  const high = (temperature?.highC ?? 0) + SLACK_C;
  if (developerC === null || (developerC >= low && developerC <= high)) {
    return { ...published, why: 'the developer is at the temperature it is published for' };
  }
  return { ...twoBath, why: 'only the process in two baths has times for other temperatures' };
}

/**
 * The process that `wanted` names: a key, a name, or a kind such as `c41`. A kind takes the process its baths
 * belong to, else the shipped one that fits.
 * @throws {AppError} process_not_found
 */
export function chooseProcess(
  db: ReadableDb,
  wanted: string,
  circumstances: ProcessCircumstances,
): ChosenProcess {
  const entries = listProcesses(db);
  const same = (text: string) => text.toLowerCase() === wanted.toLowerCase();
  const named = entries.find((entry) => same(entry.key) || same(entry.name));
  const kind = processKind.safeParse(wanted.toLowerCase()).data;
  // `e6` and `ecn2` are keys and kinds at once: both mean the shipped one, unless the baths say otherwise.
  if (named && kind === undefined) return { ...named, why: 'asked for by its name' };
  const ofBaths = new Set(circumstances.baths.flatMap((bath) => bath.process ?? []));
  const ofTheBaths = entries.find((entry) => ofBaths.has(entry.key) && entry.kind === kind);
  if (ofTheBaths) return { ...ofTheBaths, why: 'the chosen bath belongs to it' };
  if (kind === 'c41') return chooseC41(entries, circumstances);
  const first = entries.find((entry) => entry.id === null && entry.kind === kind);
  if (!first) throw appError('process_not_found', { name: wanted });
  return { ...first, why: 'the only one of its kind that is shipped' };
}

/** @throws {AppError} process_not_usable */
function checked(process: Process): Process {
  const read = checkProcess(process);
  if (!read.ok) throw appError('process_not_usable', { reason: describeProcessFault(read.reason) });
  return read.value;
}

/** @throws {AppError} process_name_taken: also when a shipped process is called so */
function refuseShippedName(name: string): void {
  const taken = SHIPPED_PROCESSES.some(
    (shipped) => shipped.name.toLowerCase() === name.toLowerCase() || shipped.key === name.toLowerCase(),
  );
  if (taken || processKind.safeParse(name.toLowerCase()).success) {
    throw appError('process_name_taken', { name });
  }
}

/** @throws {AppError} process_not_found */
function requireOwn(db: ReadableDb, id: number): ProcessEntry {
  const found = listProcesses(db).find((entry) => entry.id === id);
  if (!found) throw appError('process_not_found', { name: String(id) });
  return found;
}

export const PROCESS_HANDLERS: HandlersOf<
  'processes.list' | 'processes.add' | 'processes.change' | 'processes.remove'
> = {
  'processes.list': ({ db }) => listProcesses(db),

  'processes.add': (archive, { process, kind, copiedFrom }) => {
    const { name } = checked(process);
    refuseShippedName(name);
    return archive.undo.record(`Add process ${name}`, () =>
      orTaken('process_name_taken', name, () => {
        const { id } = command(
          archive.db,
          `INSERT INTO process (name, kind, copied_from, process_json, created_at)
           VALUES (:name, :kind, :copiedFrom, :json, :at)`,
        )({ name, kind, copiedFrom, json: JSON.stringify(process), at: archive.now().toISOString() });
        return { id };
      }),
    );
  },

  'processes.change': (archive, { id, process, kind }) => {
    const before = requireOwn(archive.db, id);
    const { name } = checked(process);
    refuseShippedName(name);
    archive.undo.record(`Change process ${before.name}`, () =>
      orTaken('process_name_taken', name, () => {
        command(
          archive.db,
          'UPDATE process SET name = :name, kind = :kind, process_json = :json WHERE id = :id',
        )({ id, name, kind, json: JSON.stringify(process) });
      }),
    );
    return {};
  },

  'processes.remove': (archive, { id }) => {
    const { name } = requireOwn(archive.db, id);
    // Developments keep a copy of the process they were planned by.
    archive.undo.record(`Remove process ${name}`, () => {
      command(archive.db, 'DELETE FROM process WHERE id = :id')({ id });
    });
    return {};
  },
};
