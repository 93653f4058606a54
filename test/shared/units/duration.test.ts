import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatDuration, parseDuration } from '../../../shared/units/duration.ts';

describe('duration', () => {
  // Hand arithmetic: minutes × 60 + seconds, hours × 3600.
  it.each([
    ['3:15', 195],
    ['0:45', 45],
    ['1:02:03', 3723],
    ['90:00', 5400],
    ['0:00', 0],
  ])('%s is %i seconds', (text, seconds) => {
    expect(parseDuration(text)).toBe(seconds);
  });

  it.each([
    ['45 s', 45],
    ['6.5 min', 390],
    ['6,5 min', 390],
    ['3 min 15 s', 195],
    [`3'15"`, 195],
    ['3′15″', 195],
    ['3m15', null],
    ['1h', 3600],
    ['1 h 30 min', 5400],
    [' 3:15 ', 195],
  ])('reads %j as %s', (text, seconds) => {
    expect(parseDuration(text)).toBe(seconds);
  });

  it.each(['', ' ', '7', '1:75', '1:75:00', '1:5', '-3:15', '3:15 pm', 'soon', ':30'])(
    'does not read %j',
    (text) => {
      expect(parseDuration(text)).toBeNull();
    },
  );

  it.each([
    [195, '3:15'],
    [45, '0:45'],
    [3723, '1:02:03'],
    [3600, '1:00:00'],
    [59.6, '1:00'],
    [0, '0:00'],
    [-5, '−0:05'],
    [-0.2, '0:00'],
  ])('writes %f seconds as %s', (seconds, text) => {
    expect(formatDuration(seconds)).toBe(text);
  });

  it('reads what it writes', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 999 * 3600 }), (seconds) => {
        expect(parseDuration(formatDuration(seconds))).toBe(seconds);
      }),
    );
  });
});
