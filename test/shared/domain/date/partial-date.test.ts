import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  formatPartialDate,
  parseExpiry,
  parsePartialDate,
} from '../../../../shared/domain/date/partial-date.ts';

function read(text: string): unknown {
  const date = parsePartialDate(text);
  return date.ok ? [date.value.edtf, date.value.earliest, date.value.latest] : date.reason;
}

describe('EDTF as typed', () => {
  // Source of the notations: Library of Congress, EDTF Specification, 4 February 2019, Level 0 "Date", "Time
  // interval", Level 1 "Seasons", "Qualification of a date (complete)", "Unspecified digit(s) from the right",
  // "Extended interval", whose own examples these are, https://www.loc.gov/standards/datetime/ ; the days by hand.
  it.each([
    ['1985-04-12', '1985-04-12', '1985-04-12'],
    ['1985-04', '1985-04-01', '1985-04-30'],
    ['1985', '1985-01-01', '1985-12-31'],
    ['1964/2008', '1964-01-01', '2008-12-31'],
    ['2004-06/2006-08', '2004-06-01', '2006-08-31'],
    ['2004-02-01/2005-02-08', '2004-02-01', '2005-02-08'],
    ['2004-02-01/2005-02', '2004-02-01', '2005-02-28'],
    ['2004-02-01/2005', '2004-02-01', '2005-12-31'],
    ['2005/2006-02', '2005-01-01', '2006-02-28'],
    ['1984?', '1984-01-01', '1984-12-31'],
    ['2004-06~', '2004-06-01', '2004-06-30'],
    ['2004-06-11%', '2004-06-11', '2004-06-11'],
    ['201X', '2010-01-01', '2019-12-31'],
    ['20XX', '2000-01-01', '2099-12-31'],
    ['2004-XX', '2004-01-01', '2004-12-31'],
    ['1985-04-XX', '1985-04-01', '1985-04-30'],
    ['1985-XX-XX', '1985-01-01', '1985-12-31'],
    ['1985-04-12/..', '1985-04-12', null],
    ['1985-04/..', '1985-04-01', null],
    ['1985/..', '1985-01-01', null],
    ['../1985-04-12', null, '1985-04-12'],
    ['../1985-04', null, '1985-04-30'],
    ['../1985', null, '1985-12-31'],
    ['1985-04-12/', '1985-04-12', null],
    ['/1985-04', null, '1985-04-30'],
    ['1984~/2004-06', '1984-01-01', '2004-06-30'],
    ['1984/2004-06~', '1984-01-01', '2004-06-30'],
    ['2000-02', '2000-02-01', '2000-02-29'],
    ['1900-02', '1900-02-01', '1900-02-28'],
  ])('reads %s as %s to %s', (edtf, earliest, latest) => {
    expect(read(edtf)).toEqual([edtf, earliest, latest]);
  });

  // Source of the months: edtf-ruby, EDTF::Season, NORTHERN (spring 3, 4, 5; summer 6, 7, 8; autumn 9, 10, 11; winter
  // 12, 1, 2) and SOUTHERN, https://www.rubydoc.info/gems/edtf/EDTF/Season
  it.each([
    ['2001-21', 'north', '2001-03-01', '2001-05-31'],
    ['2001-22', 'north', '2001-06-01', '2001-08-31'],
    ['2001-23', 'north', '2001-09-01', '2001-11-30'],
    ['2001-24', 'north', '2001-12-01', '2002-02-28'],
    ['2003-24', 'north', '2003-12-01', '2004-02-29'],
    ['2001-21', 'south', '2001-09-01', '2001-11-30'],
    ['2001-22', 'south', '2001-12-01', '2002-02-28'],
    ['2001-23', 'south', '2001-03-01', '2001-05-31'],
    ['2001-24', 'south', '2001-06-01', '2001-08-31'],
    ['2001-25', 'south', '2001-03-01', '2001-05-31'],
    ['2001-30', 'north', '2001-12-01', '2002-02-28'],
    ['2001-33', 'north', '2001-01-01', '2001-03-31'],
    ['2001-36', 'north', '2001-10-01', '2001-12-31'],
    ['2001-37', 'north', '2001-01-01', '2001-04-30'],
    ['2001-38', 'north', '2001-05-01', '2001-08-31'],
    ['2001-41', 'north', '2001-07-01', '2001-12-31'],
  ] as const)('gives %s in the %s the days %s to %s', (edtf, hemisphere, earliest, latest) => {
    expect(parsePartialDate(edtf, { hemisphere })).toEqual({
      ok: true,
      value: { edtf, typed: edtf, earliest, latest },
    });
  });
});

describe('dates in words and figures', () => {
  // Source: field log R21 (first seven rows); the others by hand.
  it.each([
    ['summer 1998', '1998-22', '1998-06-01', '1998-08-31'],
    ['ca. 1985', '1985~', '1985-01-01', '1985-12-31'],
    ['about 1985', '1985~', '1985-01-01', '1985-12-31'],
    ['1970s', '197X', '1970-01-01', '1979-12-31'],
    ['the 1970s', '197X', '1970-01-01', '1979-12-31'],
    ['before 1990', '../1989', null, '1989-12-31'],
    ['1998-07/1998-09', '1998-07/1998-09', '1998-07-01', '1998-09-30'],
    ['spring 2023', '2023-21', '2023-03-01', '2023-05-31'],
    ['Fall of 1998', '1998-23', '1998-09-01', '1998-11-30'],
    ['1998 winter', '1998-24', '1998-12-01', '1999-02-28'],
    ['until 1990', '../1990', null, '1990-12-31'],
    ['after 1990', '1991/..', '1991-01-01', null],
    ['since 1990', '1990/..', '1990-01-01', null],
    ['from 1990', '1990/..', '1990-01-01', null],
    ['before July 1998', '../1998-06', null, '1998-06-30'],
    ['before January 1998', '../1997-12', null, '1997-12-31'],
    ['before 1998-03-01', '../1998-02-28', null, '1998-02-28'],
    ['before summer 1998', '../1998-05-31', null, '1998-05-31'],
    ['after 1998-12-31', '1999-01-01/..', '1999-01-01', null],
    ['before the 1970s', '../1969', null, '1969-12-31'],
    ['before about 1990', '../1989~', null, '1989-12-31'],
    ['July 1998', '1998-07', '1998-07-01', '1998-07-31'],
    ['Sept. 1998', '1998-09', '1998-09-01', '1998-09-30'],
    ['12 July 1998', '1998-07-12', '1998-07-12', '1998-07-12'],
    ['July 12, 1998', '1998-07-12', '1998-07-12', '1998-07-12'],
    ['12th of July 1998', '1998-07-12', '1998-07-12', '1998-07-12'],
    ['on 1 May 2001', '2001-05-01', '2001-05-01', '2001-05-01'],
    ['circa July 1998', '1998-07~', '1998-07-01', '1998-07-31'],
    ['about summer 1998', '1998-22~', '1998-06-01', '1998-08-31'],
    ['c. 1985', '1985~', '1985-01-01', '1985-12-31'],
    ['~1985', '1985~', '1985-01-01', '1985-12-31'],
    ['probably 1985', '1985?', '1985-01-01', '1985-12-31'],
    ['summer 1998?', '1998-22?', '1998-06-01', '1998-08-31'],
    ['perhaps about 1985', '1985%', '1985-01-01', '1985-12-31'],
    ['about the 1970s', '1970~/1979~', '1970-01-01', '1979-12-31'],
    ['between 1998 and 2000', '1998/2000', '1998-01-01', '2000-12-31'],
    ['1998 to 2000', '1998/2000', '1998-01-01', '2000-12-31'],
    ['1998–2000', '1998/2000', '1998-01-01', '2000-12-31'],
    ['1998-2000', '1998/2000', '1998-01-01', '2000-12-31'],
    ['ca. 1998-2000', '1998~/2000~', '1998-01-01', '2000-12-31'],
    ['July to September 1998', '1998-07/1998-09', '1998-07-01', '1998-09-30'],
    ['from 12 to 14 July 1998', '1998-07-12/1998-07-14', '1998-07-12', '1998-07-14'],
    ['spring – autumn 1998', '1998-21/1998-23', '1998-03-01', '1998-11-30'],
    ['197x', '197X', '1970-01-01', '1979-12-31'],
    ['7/1998', '1998-07', '1998-07-01', '1998-07-31'],
    ['1998-7', '1998-07', '1998-07-01', '1998-07-31'],
    ['1998/07', '1998-07', '1998-07-01', '1998-07-31'],
    ['1998.7.3', '1998-07-03', '1998-07-03', '1998-07-03'],
    ['25.12.1998', '1998-12-25', '1998-12-25', '1998-12-25'],
    ['12/25/1998', '1998-12-25', '1998-12-25', '1998-12-25'],
    ['5.5.1998', '1998-05-05', '1998-05-05', '1998-05-05'],
    ['１９９８', '1998', '1998-01-01', '1998-12-31'],
  ])('reads “%s” as %s', (typed, edtf, earliest, latest) => {
    expect(parsePartialDate(typed)).toEqual({ ok: true, value: { edtf, typed, earliest, latest } });
  });

  it.each([
    ['', 'date_empty'],
    ['?', 'date_empty'],
    ['12.7.1998', 'date_day_or_month'],
    ['7/12/1998', 'date_day_or_month'],
    ["'98", 'date_year_too_short'],
    ['summer 98', 'date_year_too_short'],
    ['7/98', 'date_year_too_short'],
    ['the 70s', 'date_year_too_short'],
    ['seventies', 'date_year_too_short'],
    ['the 1900s', 'date_decade_or_century'],
    ['1998-13', 'date_no_such_month'],
    ['1998-00', 'date_no_such_month'],
    ['13/1998', 'date_no_such_month'],
    ['1998-02-29', 'date_no_such_day'],
    ['30 February 1998', 'date_no_such_day'],
    ['1998-06-31', 'date_no_such_day'],
    ['1998-07-00', 'date_no_such_day'],
    ['0198', 'date_year_unlikely'],
    ['2999', 'date_year_unlikely'],
    ['1999/1998', 'date_ends_before_start'],
    ['2000 to 1998', 'date_ends_before_start'],
    ['1998-07-12T10:00', 'date_with_time'],
    ['1998-07-12 10:00', 'date_with_time'],
    ['before the move', 'date_not_understood'],
    ['soon', 'date_not_understood'],
    ['July', 'date_not_understood'],
    ['../..', 'date_not_understood'],
    ['/', 'date_not_understood'],
    ['[1998,1999]', 'date_not_understood'],
    ['1998-XX-12', 'date_not_understood'],
    ['197X-07', 'date_not_understood'],
    ['July 1998 1999', 'date_not_understood'],
    ['1'.repeat(101), 'date_too_long'],
  ])('refuses “%s” because %s', (typed, reason) => {
    expect(read(typed)).toBe(reason);
  });

  it('keeps the words as typed', () => {
    expect(parsePartialDate('  Summer  1998 ')).toMatchObject({
      value: { typed: 'Summer  1998', edtf: '1998-22' },
    });
  });

  it('answers any text without failing', () => {
    fc.assert(
      fc.property(
        fc.oneof(fc.string({ maxLength: 40 }), fc.stringMatching(/^[0-9X./~?%-]{0,14}$/)),
        (text) => {
          expect(typeof parsePartialDate(text).ok).toBe('boolean');
        },
      ),
    );
  });
});

describe('expiry date of film', () => {
  it.each([
    ['2014-06', '2014-06', '2014-06-30'],
    ['06/2014', '2014-06', '2014-06-30'],
    ['JUN 2014', '2014-06', '2014-06-30'],
    ['2014', '2014', '2014-12-31'],
    ['about 2014', '2014~', '2014-12-31'],
  ])('reads %s', (text, edtf, latest) => {
    expect(parseExpiry(text)).toMatchObject({ ok: true, value: { edtf, latest } });
  });

  it.each([
    ['2014-06-30', 'expiry_not_a_month'],
    ['summer 2014', 'expiry_not_a_month'],
    ['before 2014', 'expiry_not_a_month'],
    ['201X', 'expiry_not_a_month'],
    ['06/14', 'date_year_too_short'],
    ['', 'date_empty'],
  ])('refuses %j because %s', (text, reason) => {
    expect(parseExpiry(text)).toEqual({ ok: false, reason });
  });
});

describe('date in words', () => {
  it.each([
    ['2024-04-20~', 'about 2024-04-20'],
    ['2023-21', 'spring 2023'],
    ['1998', '1998'],
    ['1998-07', '1998-07'],
    ['1998-07-12', '1998-07-12'],
    ['1998?', 'perhaps 1998'],
    ['1998%', 'perhaps about 1998'],
    ['197X', '1970s'],
    ['190X', '1900 to 1909'],
    ['19XX', '1900 to 1999'],
    ['1998-XX', 'a month in 1998'],
    ['1998-07-XX', 'a day in 1998-07'],
    ['1998-XX-XX', 'a day in 1998'],
    ['1998-07/1998-09', '1998-07 to 1998-09'],
    ['../1989', '1989 or earlier'],
    ['1991/..', '1991 or later'],
    ['/1989', 'to 1989, start not known'],
    ['1989/', 'from 1989, end not known'],
    ['1998-30', 'summer 1998 (southern)'],
    ['1998-26', 'summer 1998 (northern)'],
    ['1998-35', 'third quarter of 1998'],
    ['1998-39', 'third third of 1998'],
    ['1998-40', 'first half of 1998'],
    ['not a date', 'not a date'],
  ])('writes %s as “%s”', (edtf, words) => {
    expect(formatPartialDate(edtf)).toBe(words);
  });
});
