import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  formatFileDate,
  readFileDate,
  readIptcDate,
  readOffset,
} from '../../../../main/engine/scans/exif-date.ts';

// Source of the meanings: Exif 2.32 4.6.5 (DateTimeOriginal: blanks when unknown); XMP part 1, 8.2.1.1 (dates may be cut
// short); IPTC-NAA IIM 4.2, 2:55 (00 for an unknown part); a calendar for the days of the months.
describe('dates as files write them', () => {
  it.each([
    ['1998:07:12 14:00:00', '1998-07-12T14:00:00'],
    ['1998/07/12 14:00:00', '1998-07-12T14:00:00'],
    ['1998-07-12T14:00+02:00', '1998-07-12T14:00:00+02:00'],
    ['1998-07-12T14:00:05.25Z', '1998-07-12T14:00:05.25Z'],
    ['1998:07:00 00:00:00', '1998-07'],
    ['1998:00:00 00:00:00', '1998'],
    ['1998-07', '1998-07'],
    ['1998', '1998'],
    ['2000:02:29 00:00:00', '2000-02-29T00:00:00'],
  ])('reads %s as %s', (text, expected) => {
    const date = readFileDate(text);
    expect(date === null ? null : formatFileDate(date)).toBe(expected);
  });

  it.each([
    '    :  :     :  :  ',
    '0000:00:00 00:00:00',
    '1998:13:45 27:61:00',
    '1998:02:30 00:00:00',
    '1900:02:29 00:00:00',
    '1998:00:12 00:00:00',
    'unknown date',
    '',
    '12/07/1998',
  ])('takes %j as no date', (text) => {
    expect(readFileDate(text)).toBeNull();
  });

  it('keeps the day where only the time is wrong', () => {
    expect(readFileDate('1998:07:12 27:61:00')).toEqual({ date: '1998-07-12', time: null, offset: null });
  });

  it.each([
    ['19980712', '1998-07-12'],
    ['19980700', '1998-07'],
    ['19980000', '1998'],
    ['00000000', null],
    ['19981301', null],
    ['1998', null],
  ])('reads the IPTC date %s as %s', (text, expected) => {
    expect(readIptcDate(text)?.date ?? null).toBe(expected);
  });

  it.each([
    ['+09:00', '+09:00'],
    ['Z', 'Z'],
    ['   :  ', null],
    ['+25:00', null],
    [undefined, null],
  ])('reads the offset %s as %s', (text, expected) => {
    expect(readOffset(text)).toBe(expected);
  });

  it('gives back any real date and time it is given', () => {
    const moments = fc.date({
      min: new Date('1800-01-01'),
      max: new Date('2200-01-01'),
      noInvalidDate: true,
    });
    fc.assert(
      fc.property(moments, (moment) => {
        const iso = moment.toISOString().slice(0, 19);
        const exif = iso.replace('T', ' ').replaceAll('-', ':');
        const read = readFileDate(exif);
        expect(read === null ? null : formatFileDate(read)).toBe(iso);
      }),
    );
  });

  it('never fails on any text', () => {
    fc.assert(
      fc.property(fc.string(), (text) => {
        expect(['string', 'undefined']).toContain(typeof readFileDate(text)?.date);
      }),
    );
  });
});
