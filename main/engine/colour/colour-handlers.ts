import { resolve } from 'node:path';
import { z } from 'zod';
import { appError } from '../../../shared/api/errors.ts';
import { USUAL_BALANCE } from '../../../shared/domain/colour/balance.ts';
import { castOfFrame } from '../../../shared/domain/colour/cast-frame.ts';
import { judgeAlone } from '../../../shared/domain/colour/cast-words.ts';
import { applyLook, makePositiveLook, UNADJUSTED } from '../../../shared/domain/colour/look.ts';
import { lightOf } from '../../../shared/domain/colour/picture.ts';
import type { Archive } from '../archive/archive.ts';
import { query } from '../db/query.ts';
import { writeFileAtomically } from '../files/atomic-write.ts';
import { requireRoll } from '../film/rolls.ts';
import type { HandlersOf } from '../handler.ts';
import { sharp } from '../scans/image-library.ts';
import { readScan } from '../scans/read-scan.ts';
import { describeReason } from '../scans/scan-reason.ts';
import { castsUnder } from './cast-under.ts';
import { findCauses } from './causes.ts';
import { loadPicture } from './load-picture.ts';
import { measureRoll } from './measure-roll.ts';
import { renderRoll } from './render-roll.ts';
import { baseToWire, castsOfStock, castToWire, compareRoll } from './say-cast.ts';

/** A picture file from anywhere as it is shown, sRGB. @throws {AppError} picture_unreadable */
async function shownPicture(archive: Archive, file: string): Promise<Buffer> {
  const path = resolve(file);
  const reading = await readScan(path, { today: archive.now().toISOString().slice(0, 10) });
  const page = reading.pages.find((each) => each.index === reading.mainPage) ?? reading.pages[0];
  if (page?.preview?.large) return page.preview.large;
  const reason = reading.reason === null ? 'it shows nothing' : describeReason(reading.reason);
  throw appError('picture_unreadable', { path, reason });
}

export const COLOUR_HANDLERS: HandlersOf<
  'colour.ofRoll' | 'colour.ofImage' | 'colour.ofStock' | 'colour.causes' | 'colour.positive'
> = {
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
    const picture = await loadPicture(await shownPicture(archive, file));
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

  'colour.causes': async (archive, input, { signal }) => {
    const { rolls, trends, faults } = await findCauses(archive, input, signal);
    return {
      rolls,
      trends,
      faults: faults.map(({ unknown: _unknown, p: _p, corrected, ...finding }) => ({
        ...finding,
        chance: corrected,
      })),
    };
  },

  'colour.positive': async (archive, { file, out, overwrite }) => {
    const shown = await shownPicture(archive, file);
    const small = await loadPicture(shown);
    const { kind, rendering } = renderRoll([small], { polarity: 'auto', tone: 'auto' });
    const whole = await loadPicture(shown, 1600);
    const positive =
      rendering.kind === 'as-scanned' ? whole : applyLook(whole, makePositiveLook(rendering, UNADJUSTED));
    const { width, height, channels, samples } = positive;
    const png = await sharp(Buffer.from(samples.buffer, samples.byteOffset, samples.byteLength), {
      raw: { width, height, channels },
    })
      .png()
      .toBuffer();
    await writeFileAtomically(resolve(out), png, { overwrite });
    return { out: resolve(out), polarity: kind.polarity, colour: kind.colour, confidence: kind.confidence };
  },
};
