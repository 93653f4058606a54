import { z } from 'zod';

/** A thing by its name, as the user would say it. */
const named = z.strictObject({ name: z.string() });
const atPath = z.strictObject({ path: z.string() });
const because = z.strictObject({ reason: z.string() });
const nothing = z.strictObject({});

/** Every failure a user can meet, with the facts its sentence needs. Noun first, snake_case. */
export const ERROR_DETAILS = {
  archive_missing: atPath,
  archive_exists: atPath,
  archive_in_use: z.strictObject({ path: z.string(), pid: z.number().int() }),
  archive_too_new: z.strictObject({ path: z.string(), version: z.number().int(), known: z.number().int() }),
  archive_damaged: z.strictObject({ path: z.string(), reason: z.string() }),
  archive_not_open: nothing,
  archive_read_only: atPath,
  disk_full: atPath,
  file_missing: atPath,
  file_unreadable: z.strictObject({ path: z.string(), reason: z.string() }),
  file_exists: atPath,
  file_not_written: z.strictObject({ path: z.string(), reason: z.string() }),
  folder_missing: atPath,
  folder_unreadable: z.strictObject({ path: z.string(), reason: z.string() }),
  scan_unreadable: z.strictObject({ path: z.string(), reason: z.string() }),
  scan_not_found: named,
  stock_not_found: named,
  stock_name_taken: named,
  batch_not_found: named,
  camera_not_found: named,
  camera_name_taken: named,
  repair_not_found: named,
  roll_not_found: named,
  roll_number_taken: named,
  fault_not_found: z.strictObject({ name: z.string(), known: z.array(z.string()) }),
  frame_not_found: z.strictObject({ roll: z.string(), frame: z.string() }),
  outing_not_found: named,
  development_not_found: named,
  development_not_running: named,
  process_not_found: named,
  process_name_taken: named,
  process_not_usable: because,
  bath_not_found: named,
  bath_name_taken: named,
  bath_ended: z.strictObject({ name: z.string(), state: z.string(), since: z.string() }),
  tank_not_found: named,
  tank_name_taken: named,
  load_not_possible: z.strictObject({ reason: z.string(), groups: z.array(z.array(z.string())) }),
  plan_not_possible: because,
  temperature_doubtful: z.strictObject({ typed: z.string(), meant: z.string().nullable() }),
  binder_not_found: named,
  binder_name_taken: named,
  page_not_found: named,
  pocket_taken: z.strictObject({ page: z.string(), row: z.number().int(), roll: z.string() }),
  layout_not_found: named,
  cut_not_possible: because,
  paper_not_found: named,
  paper_too_small: because,
  sheet_empty: named,
  job_not_found: named,
  picture_unreadable: z.strictObject({ path: z.string(), reason: z.string() }),
  search_not_understood: z.strictObject({
    query: z.string(),
    at: z.number().int(),
    length: z.number().int(),
    reason: z.string(),
    suggestion: z.string().nullable(),
  }),
  search_not_found: named,
  search_name_taken: named,
  value_not_valid: z.strictObject({ field: z.string(), value: z.string(), reason: z.string() }),
  conflict: because,
  cancelled: nothing,
  engine_stopped: nothing,
  method_unknown: named,
  message_too_large: z.strictObject({ bytes: z.number().int(), limit: z.number().int() }),
  internal: z.strictObject({ reference: z.string() }),
} as const;

export type ErrorCode = keyof typeof ERROR_DETAILS;
export type ErrorDetails<Code extends ErrorCode> = z.output<(typeof ERROR_DETAILS)[Code]>;

/** The one error of the product that a user may meet. Recognised by `code`, never by class or message text. */
export class AppError<Code extends ErrorCode = ErrorCode> extends Error {
  override readonly name = 'AppError';
  readonly code: Code;
  readonly details: ErrorDetails<Code>;

  constructor(code: Code, details: ErrorDetails<Code>, cause?: unknown) {
    super(`${code} ${JSON.stringify(details)}`, cause === undefined ? undefined : { cause });
    this.code = code;
    this.details = details;
  }
}

/** Makes the error for `code`; the message is for developers and logs. */
export function appError<Code extends ErrorCode>(
  code: Code,
  details: ErrorDetails<Code>,
  cause?: unknown,
): AppError<Code> {
  return new AppError(code, details, cause);
}

/** Whether `error` is an `AppError`, of this code where one is given; works across realms and wires. */
export function isAppError<Code extends ErrorCode = ErrorCode>(
  error: unknown,
  code?: Code,
): error is AppError<Code> {
  if (!(error instanceof Error) || error.name !== 'AppError' || !('code' in error)) return false;
  return code === undefined || error.code === code;
}

/** For the `default` of a `switch` over a closed set: a forgotten case does not compile. */
export function missingCase(value: never): never {
  throw new Error(`Missing case: ${JSON.stringify(value)}`);
}
