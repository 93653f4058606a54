import { z } from 'zod';
import { appError } from '../../../shared/api/errors.ts';
import { USUAL_BALANCE } from '../../../shared/domain/colour/balance.ts';
import { castOfFrame } from '../../../shared/domain/colour/cast-frame.ts';
import { judgeAlone } from '../../../shared/domain/colour/cast-words.ts';
import { lightOf } from '../../../shared/domain/colour/picture.ts';
import { query } from '../db/query.ts';
import { requireRoll } from '../film/rolls.ts';
import type { HandlersOf } from '../handler.ts';
import { castsUnder } from './cast-under.ts';
import { loadPicture } from './load-picture.ts';
import { measureRoll } from './measure-roll.ts';
import { readPictureOfFile } from './picture-of-file.ts';
import { baseToWire, castsOfStock, castToWire, compareRoll } from './say-cast.ts';

export const COLOUR_HANDLERS: HandlersOf<'colour.ofRoll' | 'colour.ofImage' | 'colour.ofStock'> = {
  'colour.ofRoll': async (archive, { rollId }, { signal }) => {
    const roll = requireRoll(archive.db, rollId);
    const measured = await measureRoll(archive, rollId, signal);
    const others = roll.stock ? await castsOfStock(archive, roll.stock.id, signal) : [];
    const own = others.find(({ id }) => id === rollId);
    const cast = own === undefined ? measured.cast : own.cast;
    const casts = own?.frames ?? castsUnder(measured, USUAL_BALANCE);
    return {
      kind: {
        polarity: measured.kind.polarity,
        colour: measured.kind.colour,
        confidence: measured.kind.confidence,
      },
      frames: measured.frames.map(({ frameId, label, evidence, cast: shown }, place) => {
        const frame = casts[place] ?? shown;
        return {
          frameId,
          label,
          a: frame.a,
          b: frame.b,
          confidence: frame.confidence,
          note: judgeAlone(frame).note,
          outlier: cast?.outliers.includes(place) ?? false,
          reads: { ...evidence },
        };
      }),
      roll: castToWire(cast, compareRoll(roll.number, others)),
      base: baseToWire(measured.base, own?.fog ?? null),
    };
  },

  'colour.ofImage': async (archive, { file }) => {
    const picture = await loadPicture((await readPictureOfFile(archive, file)).preview);
    const cast = castOfFrame(lightOf(picture), 'unknown');
    return { a: cast.a, b: cast.b, confidence: cast.confidence, ...judgeAlone(cast) };
  },

  'colour.ofStock': async (archive, { stockId }, { signal }) => {
    const found = query(
      archive.db,
      z.object({ id: z.number() }),
      'SELECT id FROM stock WHERE id = :stockId',
    ).find({ stockId });
    if (!found) throw appError('stock_not_found', { name: String(stockId) });
    const rolls = await castsOfStock(archive, stockId, signal);
    return {
      rolls: rolls.map(({ id, roll, cast }) => ({
        rollId: id,
        roll,
        cast: castToWire(cast, compareRoll(roll, rolls)),
      })),
    };
  },
};
