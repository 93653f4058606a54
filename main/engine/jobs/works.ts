import type { Job } from '../../../shared/api/methods/archive-methods.ts';
import { exportPositives } from '../colour/export-positives.ts';
import { measureRolls } from '../colour/measure-rolls.ts';
import { describePictures } from '../look-up/describe-pictures.ts';
import { readFolder } from '../scans/read-folder.ts';
import type { Work } from './jobs.ts';

/** What each kind of job does. */
export const WORKS: Readonly<Record<Job['kind'], Work>> = {
  'scan-in': readFolder,
  describe: describePictures,
  measure: measureRolls,
  export: exportPositives,
};
