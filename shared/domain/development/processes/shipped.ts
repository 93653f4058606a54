import type { Process } from '../process.ts';
import { BLACK_AND_WHITE } from './black-and-white.ts';
import { C41_AS_PUBLISHED } from './c41-as-published.ts';
import { C41_TWO_BATH } from './c41-two-bath.ts';
import { E6, ECN2 } from './without-times.ts';

/** The processes every archive starts with; the user copies and edits them. */
export const SHIPPED_PROCESSES: readonly Process[] = [
  C41_AS_PUBLISHED,
  C41_TWO_BATH,
  BLACK_AND_WHITE,
  E6,
  ECN2,
];
