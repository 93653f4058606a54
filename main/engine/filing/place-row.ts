import { z } from 'zod';
import type { Place } from '../../../shared/api/values.ts';

/** The columns in which a query answers where film lies; all null for film that is not filed. */
export const placeColumns = {
  binderId: z.number().nullable(),
  binder: z.string().nullable(),
  pageId: z.number().nullable(),
  page: z.number().nullable(),
  row: z.number().nullable(),
  position: z.number().nullable(),
} as const;

type PlaceRow = z.output<z.ZodObject<typeof placeColumns>>;

/** Where film lies, or null when it is not filed. */
export function placeFromRow({ binderId, binder, pageId, page, row, position }: PlaceRow): Place | null {
  if (binderId === null || binder === null || pageId === null) return null;
  if (page === null || row === null || position === null) return null;
  return { binderId, binder, pageId, page, row, position };
}
