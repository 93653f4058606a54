import type { MethodName } from '../../shared/api/contract.ts';
import { ARCHIVE_HANDLERS } from './archive/archive-handlers.ts';
import { SETTING_HANDLERS } from './archive/settings.ts';
import { DEVELOPMENT_HANDLERS } from './development/developments.ts';
import { BINDER_HANDLERS } from './filing/binders.ts';
import { FILING_HANDLERS } from './filing/filing.ts';
import { WHERE_HANDLERS } from './filing/where.ts';
import { BATCH_HANDLERS } from './film/batches.ts';
import { CAMERA_HANDLERS } from './film/cameras.ts';
import { FRAME_HANDLERS } from './film/frame-handlers.ts';
import { ORIGIN_HANDLERS } from './film/frame-origin.ts';
import { OUTING_HANDLERS } from './film/outings.ts';
import { ROLL_HANDLERS } from './film/rolls.ts';
import { STOCK_HANDLERS } from './film/stocks.ts';
import type { HandlersOf, Run } from './handler.ts';
import { JOB_HANDLERS } from './jobs/job-handlers.ts';
import { CAUSES_HANDLERS } from './colour/causes.ts';
import { COLOUR_HANDLERS } from './colour/colour-handlers.ts';
import { LOOK_HANDLERS } from './colour/look-handlers.ts';
import { POSITIVE_HANDLERS } from './colour/positive-handlers.ts';
import { LOOK_UP_HANDLERS } from './look-up/look-up-handlers.ts';
import { SCAN_HANDLERS } from './scans/scan-handlers.ts';
import { SEARCH_HANDLERS } from './search/search-handlers.ts';
import { SHEET_HANDLERS } from './sheets/sheet-handlers.ts';
import type { Archive } from './archive/archive.ts';

/** Answered by the engine itself, since they open and close the archive that all others need. */
type EngineMethod =
  'archive.create' | 'archive.makeSample' | 'archive.open' | 'archive.close' | 'archive.state';

const TABLE: HandlersOf<Exclude<MethodName, EngineMethod>> = {
  ...ARCHIVE_HANDLERS,
  ...SETTING_HANDLERS,
  ...STOCK_HANDLERS,
  ...BATCH_HANDLERS,
  ...CAMERA_HANDLERS,
  ...ROLL_HANDLERS,
  ...FRAME_HANDLERS,
  ...ORIGIN_HANDLERS,
  ...OUTING_HANDLERS,
  ...DEVELOPMENT_HANDLERS,
  ...BINDER_HANDLERS,
  ...FILING_HANDLERS,
  ...WHERE_HANDLERS,
  ...SCAN_HANDLERS,
  ...SHEET_HANDLERS,
  ...SEARCH_HANDLERS,
  ...LOOK_UP_HANDLERS,
  ...COLOUR_HANDLERS,
  ...LOOK_HANDLERS,
  ...POSITIVE_HANDLERS,
  ...CAUSES_HANDLERS,
  ...JOB_HANDLERS,
};

/**
 * What answers each method on an open archive. The input has been checked against the method's own schema before,
 * which is why the table may take `unknown` here: the one place where name and input meet again.
 */
export function answerMethod(
  name: Exclude<MethodName, EngineMethod>,
  archive: Archive,
  input: unknown,
  run: Run,
): unknown {
  const handler: (archive: Archive, input: never, run: Run) => unknown = TABLE[name];
  return Reflect.apply(handler, undefined, [archive, input, run]);
}
