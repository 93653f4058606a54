import { describe, expect, it } from 'vitest';
import {
  describePush,
  indexForPush,
  stopsBetween,
  thirdsBetween,
} from '../../../../shared/domain/exposure/exposure-index.ts';

describe('exposure index', () => {
  it.each([
    // log₂(EI / ISO), hand arithmetic.
    [400, 800, 1],
    [400, 1600, 2],
    [400, 200, -1],
    [400, 400, 0],
  ])('lies for ISO %i at EI %i by %i stops away', (iso, index, stops) => {
    expect(stopsBetween(iso, index)).toBe(stops);
    expect(thirdsBetween(iso, index)).toBe(3 * stops);
  });

  it('counts 400 to 500 as one third', () => {
    expect(thirdsBetween(400, 500)).toBe(1);
  });

  it.each([
    [400, 1, 800],
    [400, -1, 200],
    [400, 1 / 3, 500],
    [400, -0.67, 250],
    [100, 5, 3200],
  ])('for ISO %i and %f stops is EI %i', (iso, stops, index) => {
    expect(indexForPush(iso, stops)).toEqual({ ok: true, value: index });
  });

  it.each([
    [400, 0.5, 'stops_not_thirds'],
    [400, Number.NaN, 'stops_not_thirds'],
    [400, 60, 'speed_out_of_range'],
    [0, 1, 'speed_out_of_range'],
  ])('refuses ISO %f with %f stops as %s', (iso, stops, reason) => {
    expect(indexForPush(iso, stops)).toEqual({ ok: false, reason });
  });

  it.each([
    [400, 400, 'at box speed'],
    [400, 800, 'push 1 stop'],
    [400, 1600, 'push 2 stops'],
    [400, 200, 'pull 1 stop'],
    [400, 250, 'pull ⅔ stop'],
    [400, 1000, 'push 1 ⅓ stops'],
  ])('says ISO %i at EI %i as %s', (iso, index, words) => {
    expect(describePush(iso, index)).toBe(words);
  });
});
