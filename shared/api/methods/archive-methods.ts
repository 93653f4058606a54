import { z } from 'zod';
import { method } from '../method.ts';
import { diskPath, id, instant, nothing } from '../values.ts';

const archiveState = z.strictObject({
  folder: z.string(),
  identity: z.string(),
  name: z.string(),
  version: z.number().int(),
  rolls: z.number().int(),
  frames: z.number().int(),
  scans: z.number().int(),
  binders: z.number().int(),
  undo: z.string().nullable(),
  redo: z.string().nullable(),
});

const settings = z.strictObject({
  numberPattern: z.string().min(1).max(100),
  temperatureUnit: z.enum(['C', 'F']),
  lengthUnit: z.enum(['mm', 'in']),
  paper: z.string().min(1).max(40),
});

export const job = z.strictObject({
  id,
  kind: z.enum(['scan-in', 'describe', 'measure', 'export']),
  title: z.string(),
  state: z.enum(['running', 'stopped', 'done', 'failed']),
  done: z.number().int(),
  total: z.number().int().nullable(),
  failed: z.number().int(),
  startedAt: instant,
  endedAt: instant.nullable(),
});
export type Job = z.output<typeof job>;

/** Opening, closing and keeping an archive. */
export const ARCHIVE_METHODS = {
  'archive.create': method(z.strictObject({ folder: diskPath }), archiveState, ['archive']),
  'archive.open': method(z.strictObject({ folder: diskPath }), archiveState, ['archive']),
  /** Makes the invented sample archive in an empty or new folder, and opens it. */
  'archive.makeSample': method(z.strictObject({ folder: diskPath }), archiveState, ['archive']),
  'archive.close': method(nothing, nothing, ['archive']),
  'archive.state': method(nothing, archiveState.nullable()),
  'archive.check': method(nothing, z.strictObject({ sound: z.boolean(), findings: z.array(z.string()) })),
  'archive.backUp': method(z.strictObject({ file: diskPath }), z.strictObject({ sizeBytes: z.number() })),
  'archive.undo': method(nothing, z.strictObject({ label: z.string().nullable() }), [
    'archive', 'stocks', 'cameras', 'rolls', 'frames', 'outings', 'developments', 'baths', 'binders', 'scans', 'searches',
  ]), // prettier-ignore
  'archive.redo': method(nothing, z.strictObject({ label: z.string().nullable() }), [
    'archive', 'stocks', 'cameras', 'rolls', 'frames', 'outings', 'developments', 'baths', 'binders', 'scans', 'searches',
  ]), // prettier-ignore
  'settings.get': method(nothing, settings),
  'settings.set': method(settings.partial(), settings, ['archive']),
  'jobs.list': method(nothing, z.array(job)),
  'jobs.stop': method(z.strictObject({ id }), nothing, ['jobs']),
  'jobs.resume': method(z.strictObject({ id }), nothing, ['jobs']),
} as const;
