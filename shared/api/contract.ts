import type { z } from 'zod';
import type { MethodTable } from './method.ts';
import { ARCHIVE_METHODS } from './methods/archive-methods.ts';
import { BATCH_METHODS } from './methods/batch-methods.ts';
import { CAUSES_METHODS } from './methods/causes-methods.ts';
import { DEVELOPMENT_METHODS } from './methods/development-methods.ts';
import { FILING_METHODS } from './methods/filing-methods.ts';
import { FILM_METHODS } from './methods/film-methods.ts';
import { COLOUR_METHODS } from './methods/colour-methods.ts';
import { LOOK_METHODS } from './methods/look-methods.ts';
import { LOOK_UP_METHODS } from './methods/look-up-methods.ts';
import { ORIGIN_METHODS } from './methods/origin-methods.ts';
import { SCAN_METHODS } from './methods/scan-methods.ts';
import { SEARCH_METHODS } from './methods/search-methods.ts';
import { SHEET_METHODS } from './methods/sheet-methods.ts';

/** Everything the engine answers: one table, from which client, handlers and run-time checks derive. */
export const CONTRACT = {
  ...ARCHIVE_METHODS,
  ...FILM_METHODS,
  ...BATCH_METHODS,
  ...DEVELOPMENT_METHODS,
  ...FILING_METHODS,
  ...ORIGIN_METHODS,
  ...SCAN_METHODS,
  ...SHEET_METHODS,
  ...SEARCH_METHODS,
  ...LOOK_UP_METHODS,
  ...COLOUR_METHODS,
  ...LOOK_METHODS,
  ...CAUSES_METHODS,
} as const satisfies MethodTable;

export type Contract = typeof CONTRACT;
export type MethodName = keyof Contract;
/** What a caller gives. */
export type Given<Name extends MethodName> = z.input<Contract[Name]['input']>;
/** What a handler gets, after checking. */
export type Input<Name extends MethodName> = z.output<Contract[Name]['input']>;
export type Output<Name extends MethodName> = z.output<Contract[Name]['output']>;
