import { z } from 'zod';
import { method } from '../method.ts';
import { diskPath, id, instant, nothing } from '../values.ts';
import { job } from './archive-methods.ts';

const scanRoot = z.strictObject({
  id,
  path: z.string(),
  present: z.boolean(),
  scans: z.number().int(),
  lastSeenAt: instant.nullable(),
});

const region = z.strictObject({ x: z.number(), y: z.number(), width: z.number(), height: z.number() });

/** What is proposed for one file: which frame it shows, why, and how sure. */
export const proposedFile = z.strictObject({
  path: z.string(),
  scanId: id.nullable(),
  pictureId: z.string().nullable(),
  frames: z.array(
    z.strictObject({ label: z.string(), page: z.number().int(), region, pictureId: z.string().nullable() }),
  ),
  order: z.number().int(),
  version: z.string(),
  reason: z.string(),
  confidence: z.number().min(0).max(1),
  state: z.enum(['done', 'skipped', 'failed', 'waiting']),
  code: z.string().nullable(),
  remark: z.string().nullable(),
});
export type ProposedFile = z.output<typeof proposedFile>;

const mappingOptions = z.strictObject({
  reverse: z.boolean().nullable().default(null),
  firstLabel: z.string().max(20).nullable().default(null),
  skip: z.array(z.string().max(4096)).max(10_000).default([]),
});

const question = z.strictObject({
  kind: z.string(),
  text: z.string(),
  paths: z.array(z.string()),
  choices: z.array(z.strictObject({ text: z.string(), options: mappingOptions })),
});

const proposal = z.strictObject({
  folder: z.string(),
  files: z.array(proposedFile),
  questions: z.array(question),
  notes: z.array(z.string()),
  litter: z.array(z.strictObject({ path: z.string(), reason: z.string(), matters: z.boolean() })),
});
export type ScanProposal = z.output<typeof proposal>;

const scan = z.strictObject({
  id,
  path: z.string(),
  kind: z.string(),
  state: z.string(),
  reason: z.string().nullable(),
  remarks: z.array(z.string()),
  sizeBytes: z.number(),
  sha256: z.string(),
  pages: z.number().int(),
  width: z.number().nullable(),
  height: z.number().nullable(),
  profile: z.string().nullable(),
  infrared: z.boolean(),
  captured: z.string().nullable(),
  scanned: z.string().nullable(),
  missing: z.boolean(),
  frames: z.array(z.strictObject({ id, roll: z.string(), label: z.string() })),
});
export type Scan = z.output<typeof scan>;

/** Scan roots, scans, and bringing scans in. */
export const SCAN_METHODS = {
  'roots.list': method(nothing, z.array(scanRoot)),
  'roots.repoint': method(z.strictObject({ id, path: diskPath }), nothing, ['scans']),
  'scans.get': method(z.strictObject({ id }), scan),
  'scans.ofRoll': method(z.strictObject({ rollId: id }), z.array(scan)),
  /** Reads a folder (hash, previews, metadata) as a job; each file is recorded once, whatever happens. */
  'scans.read': method(z.strictObject({ folder: diskPath }), job, ['scans', 'jobs']),
  /** Which file becomes which frame of the roll, and why; nothing is recorded. */
  'scans.propose': method(
    z.strictObject({ folder: diskPath, rollId: id, options: mappingOptions }),
    proposal,
  ),
  /** Records what was proposed (as corrected by the user). */
  'scans.accept': method(
    z.strictObject({
      rollId: id,
      files: z
        .array(
          z.strictObject({
            scanId: id,
            version: z.string().max(40),
            reason: z.string().max(1000),
            confidence: z.number().min(0).max(1),
            frames: z
              .array(
                // A frame of a proposal may come back as it was shown, with its picture; that is not read.
                z.object({ label: z.string().min(1).max(20), page: z.number().int().min(0), region }),
              )
              .max(200),
          }),
        )
        .max(5000),
    }),
    z.strictObject({ framesAdded: z.number().int(), linked: z.number().int() }),
    ['scans', 'frames', 'rolls'],
  ),
  /** Takes scans off the frames of a roll, or off one of them; frames and files stay. */
  'scans.untie': method(
    z.strictObject({
      rollId: id,
      scanIds: z.array(id).min(1).max(5000),
      frameId: id.nullable().default(null),
    }),
    z.strictObject({ untied: z.number().int() }),
    ['scans', 'frames', 'rolls'],
  ),
} as const;
