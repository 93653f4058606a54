import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatShutter, parseShutter } from '../../../../shared/domain/exposure/shutter.ts';

describe('exposure time', () => {
  it.each([
    ['1/500', 1 / 500],
    ['1/500 s', 1 / 500],
    ['1 / 500s', 1 / 500],
    ['1/2.5', 0.4],
    ['0.5s', 0.5],
    ['0,5', 0.5],
    ['.5', 0.5],
    ['30"', 30],
    ['30 s', 30],
    ['1.3 sec', 1.3],
    ['2 min', 120],
    ['1 min 30 s', 90],
    [`1'30"`, 90],
    ['0.008', 0.008],
  ])('reads %j as %f seconds', (text, seconds) => {
    expect(parseShutter(text)).toEqual({ ok: true, value: { kind: 'seconds', seconds } });
  });

  it.each([
    ['B', 'bulb'],
    ['bulb', 'bulb'],
    ['T', 'time'],
  ])('reads %j as %s', (text, kind) => {
    expect(parseShutter(text)).toEqual({ ok: true, value: { kind } });
  });

  it.each([
    ['', 'shutter_unreadable'],
    ['fast', 'shutter_unreadable'],
    ['1/', 'shutter_unreadable'],
    ['2/500', 'shutter_unreadable'],
    ['-1/500', 'shutter_unreadable'],
    // A dial says 125 for 1/125; a film log may mean two minutes.
    ['125', 'shutter_unit_missing'],
    ['1', 'shutter_unit_missing'],
    ['1/0', 'shutter_out_of_range'],
    ['0', 'shutter_out_of_range'],
    ['1000000 s', 'shutter_out_of_range'],
  ])('refuses %j as %s', (text, reason) => {
    expect(parseShutter(text)).toEqual({ ok: false, reason });
  });

  it.each([
    [1 / 500, '1/500'],
    [1 / 8000, '1/8000'],
    [0.008, '1/125'],
    [0.5, '1/2'],
    [0.4, '0.4 s'],
    [1, '1 s'],
    [1.3, '1.3 s'],
    [30, '30 s'],
    [120, '120 s'],
  ])('writes %f seconds as %s', (seconds, text) => {
    expect(formatShutter({ kind: 'seconds', seconds })).toBe(text);
  });

  it('writes bulb as B', () => {
    expect(formatShutter({ kind: 'bulb' })).toBe('B');
  });

  it('writes an open time as T', () => {
    expect(formatShutter({ kind: 'time' })).toBe('T');
  });

  it('reads what it writes to one per cent', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-4, max: 1000, noNaN: true }), (seconds) => {
        const read = parseShutter(formatShutter({ kind: 'seconds', seconds }));
        const back = read.ok && read.value.kind === 'seconds' ? read.value.seconds : Number.NaN;
        expect(Math.abs(back / seconds - 1)).toBeLessThan(0.0101);
      }),
    );
  });
});
