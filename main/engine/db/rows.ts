import { z } from 'zod';

/** Rows that many queries give. */
export const idRow = z.object({ id: z.number() });
export const numberRow = z.object({ number: z.string() });
export const countRow = z.object({ count: z.number() });
