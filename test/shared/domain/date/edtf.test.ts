import edtf from 'edtf';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { daysInMonth } from '../../../../shared/domain/date/calendar.ts';
import { parsePartialDate } from '../../../../shared/domain/date/partial-date.ts';

const two = (value: number): string => String(value).padStart(2, '0');
const year = fc.integer({ min: 1800, max: 2199 });
const month = fc.integer({ min: 1, max: 12 });

/** Dates without seasons: there the reference library takes quarters of the year, we the months of the weather. */
const point = fc.oneof(
  year.map(String),
  fc.tuple(year, month).map(([y, m]) => `${y}-${two(m)}`),
  fc
    .tuple(year, month, fc.integer({ min: 1, max: 31 }))
    .map(([y, m, d]) => `${y}-${two(m)}-${two(Math.min(d, daysInMonth(y, m)))}`),
);
const qualified = fc.tuple(point, fc.constantFrom('', '?', '~', '%')).map((parts) => parts.join(''));
const vague = fc.oneof(
  fc.integer({ min: 180, max: 219 }).map((decade) => `${decade}X`),
  fc.integer({ min: 18, max: 21 }).map((century) => `${century}XX`),
  year.map((y) => `${y}-XX`),
  year.map((y) => `${y}-XX-XX`),
  fc.tuple(year, month).map(([y, m]) => `${y}-${two(m)}-XX`),
  // Not 37 and 38: the library gives these thirds of a year five months, so that they overlap with the next.
  fc.tuple(year, fc.constantFrom(33, 34, 35, 36, 39, 40, 41)).map(([y, part]) => `${y}-${part}`),
);

/** First and last day after the reference library, edtf 4.11 for JavaScript. */
function reference(text: string): { earliest: string | null; latest: string | null } {
  const { min, max } = edtf(text, { level: 3 });
  const day = (instant: number | null): string | null =>
    instant !== null && Number.isFinite(instant) ? new Date(instant).toISOString().slice(0, 10) : null;
  return { earliest: day(min), latest: day(max) };
}

describe('days of an EDTF date against the reference library', () => {
  it('agrees on dates with or without qualifiers', () => {
    fc.assert(
      fc.property(fc.oneof(qualified, vague), (text) => {
        expect(parsePartialDate(text)).toMatchObject({ ok: true, value: { edtf: text, ...reference(text) } });
      }),
    );
  });

  it('agrees on spans, open ones too', () => {
    const pair = fc.tuple(qualified, qualified).map((ends) => ends.sort());
    const span = fc.oneof(
      pair.filter(([from = '', to = '']) => from.slice(0, 4) !== to.slice(0, 4)),
      qualified.map((from) => [from, '..']),
      qualified.map((to) => ['..', to]),
      qualified.map((from) => [from, '']),
    );
    fc.assert(
      fc.property(span, (ends) => {
        const text = ends.join('/');
        expect(parsePartialDate(text)).toMatchObject({ ok: true, value: { edtf: text, ...reference(text) } });
      }),
    );
  });

  it('agrees on what is no month', () => {
    fc.assert(
      fc.property(year, fc.constantFrom('00', '13', '14', '20', '42', '99'), (y, m) => {
        expect(() => edtf(`${y}-${m}`)).toThrow(`${y}-${m}`);
        expect(parsePartialDate(`${y}-${m}`)).toEqual({ ok: false, reason: 'date_no_such_month' });
      }),
    );
  });
});
