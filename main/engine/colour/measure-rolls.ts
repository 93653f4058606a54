import { z } from 'zod';
import type { Work } from '../jobs/jobs.ts';
import { measureRoll } from './measure-roll.ts';

const jobInput = z.object({ rollIds: z.array(z.number()) });

/** Measures the colour of rolls, so that negatives are shown as positives and casts are known. */
export const measureRolls: Work = async (archive, input, progress, signal) => {
  const { rollIds } = jobInput.parse(input);
  progress.total(rollIds.length);
  for (const rollId of rollIds) {
    await measureRoll(archive, rollId, signal);
    progress.step();
  }
  return { rolls: rollIds.length };
};
