import type { PlottedRoll } from '../../../shared/api/methods/colour-methods.ts';

/** A roll of an invented stock of which nothing is known but what is given. */
export function plotted(rollId: number, known: Partial<PlottedRoll>): PlottedRoll {
  return {
    rollId,
    roll: `2026-00${rollId}`,
    stock: 'Fenn 200',
    a: null,
    b: null,
    temperatureErrorC: null,
    monthsPastExpiry: null,
    bathUsedCm2: null,
    developerSeconds: null,
    camera: null,
    bath: null,
    ...known,
  };
}
