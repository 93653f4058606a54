import { type AppError, type ErrorCode, type ErrorDetails, isAppError } from '../api/errors.ts';

/** What a person reads of a failure: what did not happen, to which thing, and what to do or what is safe. */
export interface ErrorText {
  readonly title: string;
  readonly detail: string;
  readonly advice: string;
}

type Describe = { readonly [Code in ErrorCode]: (details: ErrorDetails<Code>) => ErrorText };

function notFound(thing: string, list: string): (details: { name: string }) => ErrorText {
  return ({ name }) => ({
    title: `There is no such ${thing}`,
    detail: `No ${thing} is called “${name}” in this archive.`,
    advice: list,
  });
}

function taken(thing: string): (details: { name: string }) => ErrorText {
  return ({ name }) => ({
    title: `The ${thing} was not saved`,
    detail: `There is a ${thing} called “${name}” already.`,
    advice: 'Choose another name.',
  });
}

const CHECK_SPELLING = 'Check how it is spelled.';

const DESCRIBE: Describe = {
  archive_missing: ({ path }) => ({
    title: 'The archive was not opened',
    detail: `No archive is in ${path}.`,
    advice:
      'If it lies on a drive that is not connected, connect it; otherwise choose another folder or make an archive there.',
  }),
  archive_exists: ({ path }) => ({
    title: 'No archive was made',
    detail: `An archive is in ${path} already.`,
    advice: 'Open it, or choose another folder. Nothing in it was changed.',
  }),
  archive_in_use: ({ path, pid }) => ({
    title: 'The archive was not opened',
    detail: `${path} is open in another window or program${pid > 0 ? ` (process ${pid})` : ''}.`,
    advice: 'Close it there first. Two programs never write one archive at once.',
  }),
  archive_too_new: ({ path, version, known }) => ({
    title: 'The archive was not opened',
    detail: `${path} was written by a newer Edgeprint (archive version ${version}; this one knows ${known}).`,
    advice: 'Install the newer Edgeprint. Nothing in the archive was changed.',
  }),
  archive_damaged: ({ path, reason }) => ({
    title: 'The archive was not opened',
    detail: `${path} cannot be read: ${sentence(reason)}`,
    advice:
      'Keep the file as it is and open the newest copy in the folder “backups”. The scans themselves are not affected.',
  }),
  archive_not_open: () => ({
    title: 'No archive is open',
    detail: 'This needs an open archive.',
    advice: 'Open an archive or make one.',
  }),
  archive_read_only: ({ path }) => ({
    title: 'Nothing was saved',
    detail: `${path} can only be read.`,
    advice: 'Check the permissions of the folder, or whether the drive is locked.',
  }),
  disk_full: ({ path }) => ({
    title: 'Nothing was saved',
    detail: `The disk of ${path} is full.`,
    advice: 'Make room and try again. What was saved before is safe.',
  }),
  file_missing: ({ path }) => ({
    title: 'The file was not read',
    detail: `${path} is not there.`,
    advice: 'Check the name, or connect the drive that holds it.',
  }),
  file_unreadable: ({ path, reason }) => ({
    title: 'The file was not read',
    detail: `${path}: ${sentence(reason)}`,
    advice: 'Check its permissions or copy it again. The file was not changed.',
  }),
  file_exists: ({ path }) => ({
    title: 'The file was not written',
    detail: `${path} is there already.`,
    advice: 'Choose another name, or say that it may be replaced.',
  }),
  file_not_written: ({ path, reason }) => ({
    title: 'The file was not written',
    detail: `${path}: ${sentence(reason)}`,
    advice: 'Choose another folder or name. Nothing half written was left behind.',
  }),
  folder_missing: ({ path }) => ({
    title: 'The folder was not read',
    detail: `${path} is not there.`,
    advice: 'Check the name, or connect the drive that holds it.',
  }),
  folder_unreadable: ({ path, reason }) => ({
    title: 'The folder was not read',
    detail: `${path}: ${sentence(reason)}`,
    advice: 'Check its permissions.',
  }),
  scan_unreadable: ({ path, reason }) => ({
    title: 'The scan was not read',
    detail: `${path}: ${sentence(reason)}`,
    advice: 'It stays listed with this reason; scan it again or copy it again. The file was not changed.',
  }),
  scan_not_found: notFound('scan', CHECK_SPELLING),
  stock_not_found: notFound('stock', 'Add the stock first (stock add), or check how it is spelled.'),
  stock_name_taken: taken('stock'),
  batch_not_found: notFound('batch of stock', CHECK_SPELLING),
  camera_not_found: notFound('camera', 'Add the camera first (camera add), or check how it is spelled.'),
  camera_name_taken: taken('camera'),
  repair_not_found: notFound(
    'repair',
    'It may have been removed; the list of the camera shows what there is.',
  ),
  fault_not_found: ({ name, known }) => ({
    title: 'No fault was counted',
    detail: `No fault of that name is noted on a frame: “${name}”.`,
    advice: known.length === 0 ? 'No fault at all is noted yet.' : `Noted are: ${known.join(', ')}.`,
  }),
  roll_not_found: notFound('roll', 'Check the number; roll numbers are as written on the sleeve.'),
  roll_number_taken: ({ name }) => ({
    title: 'The roll was not saved',
    detail: `The number ${name} has been given before; numbers are never used twice.`,
    advice: 'Choose another number, or leave it out to get the next one.',
  }),
  frame_not_found: ({ roll, frame }) => ({
    title: 'There is no such frame',
    detail: roll ? `Roll ${roll} has no frame labelled ${frame}.` : `There is no frame ${frame}.`,
    advice: 'Labels are as printed on the edge of the film; 0 and 00 are two frames.',
  }),
  outing_not_found: notFound('outing', CHECK_SPELLING),
  development_not_found: notFound('development', CHECK_SPELLING),
  development_not_running: ({ name }) => ({
    title: 'Nothing was noted',
    detail: `Development ${name} is not running.`,
    advice: 'What is recorded of it can be corrected in its log.',
  }),
  process_not_found: notFound(
    'process',
    'Use c41, bw, e6, ecn2, or the name of a process; they are listed by “process list”.',
  ),
  process_name_taken: taken('process'),
  process_not_usable: ({ reason }) => ({
    title: 'The process was not saved',
    detail: reason,
    advice: 'Correct it and save again.',
  }),
  bath_not_found: notFound('bath', 'The baths are listed by “bath list”.'),
  bath_name_taken: taken('bath'),
  bath_ended: ({ name, state, since }) => ({
    title: 'The bath was not used',
    detail: `“${name}” is ${state} since ${since}.`,
    advice: 'Choose another bath, or mix one.',
  }),
  tank_not_found: notFound('tank', CHECK_SPELLING),
  tank_name_taken: taken('tank'),
  load_not_possible: ({ reason, groups }) => ({
    title: 'These rolls were not put into one tank',
    detail: reason,
    advice:
      groups.length > 1
        ? `One after the other they can be done: ${groups.map((rolls) => rolls.join(', ')).join(' | ')}.`
        : 'Choose other rolls, another tank or another bath.',
  }),
  plan_not_possible: ({ reason }) => ({
    title: 'No development was planned',
    detail: reason,
    advice: 'Change the temperature, the shift or the process; nothing was written.',
  }),
  temperature_doubtful: ({ typed, meant }) => ({
    title: 'The temperature was not noted',
    detail: `${typed} is far from the plan.`,
    advice: meant === null ? 'Read it again, or say that it is right.' : `Is ${meant} meant?`,
  }),
  binder_not_found: notFound('binder', CHECK_SPELLING),
  binder_name_taken: taken('binder'),
  page_not_found: notFound('page', CHECK_SPELLING),
  pocket_taken: ({ page, row, roll }) => ({
    title: 'The roll was not filed',
    detail: `Row ${row} of ${page} holds film of roll ${roll}.`,
    advice: 'Choose another page, or take that film out first.',
  }),
  layout_not_found: notFound('page layout', 'The layouts are listed by “layouts”.'),
  cut_not_possible: ({ reason }) => ({
    title: 'The roll was not filed',
    detail: reason,
    advice: 'Choose another cut or another page layout.',
  }),
  paper_not_found: notFound(
    'paper',
    'Papers: 8x10in, letter, a4, 24x30cm, 11x14in, 9.5x12in, or a size such as 300x400mm.',
  ),
  paper_too_small: ({ reason }) => ({
    title: 'No sheet was made',
    detail: reason,
    advice: 'Choose a larger paper.',
  }),
  sheet_empty: ({ name }) => ({
    title: 'No sheet was made',
    detail: `Roll ${name} has no frames yet.`,
    advice: 'Bring its scans in or note its frames first.',
  }),
  job_not_found: notFound('job', 'It may have ended.'),
  picture_unreadable: ({ path, reason }) => ({
    title: 'The picture was not read',
    detail: `${path}: ${sentence(reason)}`,
    advice: 'Try another copy of it, as JPEG, PNG, TIFF or WebP.',
  }),
  search_not_understood: ({ query, at, length, reason, suggestion }) => ({
    title: 'The search was not understood',
    detail: `“${query.slice(at, at + length)}”: ${sentence(reason)}`,
    advice:
      suggestion === null
        ? 'Plain words always work.'
        : `Perhaps: ${query.slice(0, at)}${suggestion}${query.slice(at + length)}`,
  }),
  search_not_found: notFound('saved search', CHECK_SPELLING),
  search_name_taken: taken('saved search'),
  value_not_valid: ({ field, value, reason }) => ({
    title: 'Nothing was changed',
    detail: `${field} “${value}”: ${reason}`,
    advice: 'Correct it and try again.',
  }),
  conflict: ({ reason }) => ({
    title: 'Nothing was changed',
    detail: reason,
    advice: 'Look at it again and repeat what is still wanted.',
  }),
  cancelled: () => ({
    title: 'Stopped',
    detail: 'It was stopped as asked.',
    advice: 'What was done until then is kept.',
  }),
  engine_stopped: () => ({
    title: 'The archive engine has stopped',
    detail: 'Nothing more can be saved until it runs again.',
    advice: 'Start it again. What was saved is safe.',
  }),
  method_unknown: notFound(
    'command',
    'Window and engine may be of different versions; start Edgeprint again.',
  ),
  message_too_large: ({ bytes, limit }) => ({
    title: 'Nothing was changed',
    detail: `The message has ${bytes} bytes; ${limit} are allowed.`,
    advice: 'Do it in smaller parts.',
  }),
  internal: ({ reference }) => ({
    title: 'Something went wrong inside Edgeprint',
    detail: `It is a fault of the program. Reference ${reference}.`,
    advice: 'Nothing was half saved. If it happens again, report the reference.',
  }),
};

/** The words for an error. Anything that is no `AppError` is a fault of the program. */
export function describeError(error: unknown): ErrorText {
  if (!isAppError(error)) return DESCRIBE.internal({ reference: 'none' });
  return describe(error.code, error.details, error);
}

function describe<Code extends ErrorCode>(
  code: Code,
  details: ErrorDetails<Code>,
  error: AppError,
): ErrorText {
  const words = DESCRIBE[code];
  return words ? words(details) : { title: error.code, detail: error.message, advice: '' };
}

/** A reason as the end of a sentence, whether or not it brought its own full stop. */
function sentence(reason: string): string {
  return reason.endsWith('.') ? reason : `${reason}.`;
}
