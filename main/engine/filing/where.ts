import { z } from 'zod';
import { query } from '../db/query.ts';
import { requireFrame } from '../film/frames.ts';
import type { HandlersOf } from '../handler.ts';
import { findHits } from '../search/hits.ts';

const placeRow = z.object({ place: z.string().nullable() });

export const WHERE_HANDLERS: HandlersOf<'frames.where'> = {
  'frames.where': ({ db }, { frameId }) => {
    requireFrame(db, frameId);
    const [hit] = findHits(db, 'frame.id = :frameId', { frameId });
    if (!hit) throw new Error('A frame without a roll');
    const place = hit.outing
      ? query(db, placeRow, 'SELECT place FROM outing WHERE id = :id').find({ id: hit.outing.id })
      : null;
    return {
      rollId: hit.rollId,
      roll: hit.roll,
      frame: hit.frame,
      lies: hit.lies,
      outing: hit.outing ? { ...hit.outing, place: place?.place ?? null } : null,
      development: hit.development,
    };
  },
};
