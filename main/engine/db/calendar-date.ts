import { z } from 'zod';
import { appError } from '../../../shared/api/errors.ts';
import type { CalendarDate } from '../../../shared/api/values.ts';
import { parsePartialDate } from '../../../shared/domain/date/partial-date.ts';
import { describeReason } from '../../../shared/text/describe-reason.ts';
import type { Value } from './query.ts';

/** The four columns of a calendar date named `name`. */
export function dateColumns<Name extends string>(
  name: Name,
): { [Part in 'edtf' | 'typed' | 'earliest' | 'latest' as `${Name}_${Part}`]: z.ZodNullable<z.ZodString> };
export function dateColumns(name: string): Record<string, z.ZodNullable<z.ZodString>> {
  const text = z.string().nullable();
  return {
    [`${name}_edtf`]: text,
    [`${name}_typed`]: text,
    [`${name}_earliest`]: text,
    [`${name}_latest`]: text,
  };
}

/** The calendar date that stands in the four columns of `name`, or null. */
export function dateFromRow(row: Readonly<Record<string, unknown>>, name: string): CalendarDate | null {
  const part = (suffix: string): string | null => {
    const value = row[`${name}_${suffix}`];
    return typeof value === 'string' ? value : null;
  };
  const edtf = part('edtf');
  if (edtf === null) return null;
  return { edtf, typed: part('typed') ?? edtf, earliest: part('earliest'), latest: part('latest') };
}

/** Reads a typed date. @throws {AppError} value_not_valid when it is no date that can be understood */
export function readDate(typed: string, field: string): CalendarDate {
  const read = parsePartialDate(typed);
  if (!read.ok)
    throw appError('value_not_valid', { field, value: typed, reason: describeReason(read.reason) });
  const { edtf, earliest, latest } = read.value;
  return { edtf, typed, earliest, latest };
}

/** A typed date (or null) as the four bound values of `name`. @throws {AppError} value_not_valid */
export function dateValues(name: string, typed: string | null | undefined): Record<string, Value> {
  const date = typed === null || typed === undefined ? null : readDate(typed, name);
  return {
    [`${name}_edtf`]: date?.edtf ?? null,
    [`${name}_typed`]: date?.typed ?? null,
    [`${name}_earliest`]: date?.earliest ?? null,
    [`${name}_latest`]: date?.latest ?? null,
  };
}
