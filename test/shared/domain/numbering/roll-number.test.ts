import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  checkRollNumber,
  nextRollNumber,
  parseRollPattern,
} from '../../../../shared/domain/numbering/roll-number.ts';

const day = { year: 2026, month: 7 };

function next(pattern: string, used: readonly string[]): string | null {
  const parsed = parseRollPattern(pattern);
  return parsed.ok ? nextRollNumber(parsed.value, used, day) : null;
}

describe('roll number', () => {
  // Source: field log R43, the schemes people use: 2019-R30, R1, C-123/A07; museum numbers of facts 12: 1978.10.1.
  it.each(['2019-R30', 'R1', 'C-123/A07', '1978.10.1', '京都 12', '0042', '№ 7'])(
    'takes %s as it is',
    (text) => {
      expect(checkRollNumber(text)).toEqual({ ok: true, value: text });
    },
  );

  it('tidies blanks', () => {
    expect(checkRollNumber('  R  1 ')).toEqual({ ok: true, value: 'R 1' });
  });

  it('composes accents, so that the same number typed on two systems is one', () => {
    expect(checkRollNumber('U\u0308-1')).toEqual({ ok: true, value: '\u00dc-1' });
  });

  it.each([
    ['', 'roll_number_empty'],
    ['   ', 'roll_number_empty'],
    ['a\tb', 'roll_number_not_printable'],
    ['a\nb', 'roll_number_not_printable'],
    ['a\u200bb', 'roll_number_not_printable'],
    ['x'.repeat(41), 'roll_number_too_long'],
    ['2026-001/', 'roll_number_slash_at_end'],
    ['/7', 'roll_number_slash_at_end'],
  ])('refuses %j because %s', (text, reason) => {
    expect(checkRollNumber(text)).toEqual({ ok: false, reason });
  });
});

describe('next roll number', () => {
  // By hand.
  it.each([
    ['{year}-{n:3}', [], '2026-001'],
    ['{year}-{n:3}', ['2026-001', '2026-007', '2025-300'], '2026-008'],
    ['{year}-{n:3}', ['2026-999'], '2026-1000'],
    ['{year}-{n:3}', ['2026-14b'], '2026-015'],
    ['{year}-R{n}', ['2026-R9', '2026-R10'], '2026-R11'],
    ['R{n}', ['r41', 'R7'], 'R42'],
    ['{yy}{month}-{n:2}', ['2607-03', '2606-12'], '2607-04'],
    ['C-{n:3}/A', ['C-122/A', 'C-123/A07'], 'C-124/A'],
    ['No. {n}', ['No. 5'], 'No. 6'],
    ['{n:4}', ['0041'], '0042'],
    ['Büro {n}', ['buro 3'], 'Büro 4'],
  ])('gives for %s after %j the number %s', (pattern, used, number) => {
    expect(next(pattern, used)).toBe(number);
  });

  it('counts a number of a deleted roll, which is still among the used ones', () => {
    expect(next('R{n}', ['R1', 'R2', 'R3'])).toBe('R4');
  });

  it.each([
    ['{year}', 'pattern_without_count'],
    ['', 'pattern_without_count'],
    ['{n}-{n}', 'pattern_with_two_counts'],
    ['{n:0}', 'pattern_field_unknown'],
    ['{jahr}-{n}', 'pattern_field_unknown'],
    ['{n', 'pattern_field_unknown'],
    ['{n}/', 'roll_number_slash_at_end'],
  ])('refuses the pattern %j because %s', (pattern, reason) => {
    expect(parseRollPattern(pattern)).toEqual({ ok: false, reason });
  });

  it('never gives a number twice', () => {
    const pattern = fc.constantFrom('{year}-{n:3}', 'R{n}', '{n}', '{n}b', 'A{n:2}/{yy}');
    fc.assert(
      fc.property(
        pattern,
        fc.array(fc.stringMatching(/^(2026-|R|r|A)?0{0,2}[0-9]{1,3}(b|\/26)?$/)),
        (text, used) => {
          const given = [...used];
          for (let turn = 0; turn < 5; turn += 1) {
            const number = next(text, given);
            expect(given).not.toContain(number);
            given.push(number ?? '');
          }
        },
      ),
    );
  });
});
