import type { Groups, PlottedRoll, Trend } from '../../../shared/api/methods/causes-methods.ts';

/** A roll of an invented stock of which nothing is known but what is given. */
export function plotted(id: number, known: Partial<PlottedRoll>): PlottedRoll {
  return {
    id,
    name: `2026-00${id}`,
    stock: 'Fenn 200',
    process: 'c41',
    development: null,
    a: null,
    b: null,
    deltaA: null,
    deltaB: null,
    deltaE00: null,
    fog: null,
    stands: false,
    temperatureErrorC: null,
    effectiveSeconds: null,
    bathRolls: null,
    monthsPastExpiry: null,
    warmMonths: null,
    storage: null,
    camera: null,
    scanner: null,
    ...known,
  };
}

/** A trend with an answer. */
export const TREND: Trend = {
  of: 'deltaA',
  against: 'temperatureErrorC',
  count: 34,
  unknown: 2,
  slope: 2.4,
  slopeLow: 1,
  slopeHigh: 3.7,
  intercept: 0,
  correlation: 0.6,
  correlationLow: 0.3,
  correlationHigh: 0.8,
  chance: 0.0001,
  corrected: 0.0013,
  questions: 13,
  outliers: [{ id: 31, name: '2024-031' }],
  say: 'What the engine says.',
};

/** Groups with an answer. */
export const GROUPS: Groups = {
  of: 'deltaA',
  by: 'camera',
  count: 20,
  unknown: 0,
  groups: [
    { value: 'A', count: 10, median: 0 },
    { value: 'B', count: 10, median: 3 },
  ],
  chance: 0.02,
  corrected: 0.4,
  method: 'approximate',
  questions: 13,
  outliers: [],
  say: 'What the engine says of cameras.',
};
