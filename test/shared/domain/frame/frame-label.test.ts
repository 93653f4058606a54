import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  compareFrameLabels,
  findFrameLabelRank,
  findLabelAfter,
  frameLabel,
  listLabelsFrom,
  normalizeFrameLabel,
  parseFrameLabel,
} from '../../../../shared/domain/frame/frame-label.ts';

const anyLabel = fc
  .tuple(fc.integer({ min: -1, max: 999 }), fc.constantFrom('', '', 'A', 'B', 'Z'))
  .map(([number, letter]) => frameLabel(number, letter));

describe('frame label', () => {
  // Source: field log R37 and names.tsv, groups "edge-labels", "zeros", "scripts", "traps".
  it.each([
    ['00A', '00A'],
    ['0A', '0A'],
    ['12A', '12A'],
    ['12a', '12A'],
    ['37', '37'],
    ['0', '0'],
    ['00', '00'],
    ['07', '7'],
    ['007', '7'],
    ['07A', '7A'],
    ['h03B', '3B'],
    ['holder 03B', '3B'],
    ['01A', '1A'],
    ['#7', '7'],
    ['٠٧', '7'],
    ['０７', '7'],
    [' 7 ', '7'],
  ])('reads %s as %s', (text, label) => {
    expect(normalizeFrameLabel(text)).toEqual({ ok: true, value: label });
  });

  it.each([
    ['', 'label_empty'],
    ['  ', 'label_empty'],
    ['000', 'label_zeros'],
    ['-1', 'label_not_understood'],
    ['x', 'label_not_understood'],
    ['A', 'label_not_understood'],
    ['12AB', 'label_not_understood'],
    ['1.5', 'label_not_understood'],
    ['12 A', 'label_not_understood'],
    ['1000', 'label_too_high'],
  ])('refuses %j because %s', (text, reason) => {
    expect(parseFrameLabel(text)).toEqual({ ok: false, reason });
  });

  it('keeps 0 apart from 00', () => {
    expect(normalizeFrameLabel('0')).not.toEqual(normalizeFrameLabel('00'));
  });

  it('reads back what it writes', () => {
    fc.assert(
      fc.property(anyLabel, (label) => {
        expect(parseFrameLabel(label.text)).toEqual({ ok: true, value: label });
      }),
    );
  });
});

describe('order of labels', () => {
  // Source: design, "order 00 < 0 < 0A < 1 < 1A < 2 … 37A"; field log R37: 12A lies between 12 and 13.
  const along = [
    '00',
    '00A',
    '0',
    '0A',
    '1',
    '1A',
    '2',
    '9',
    '10',
    '12',
    '12A',
    '13',
    '36',
    '36A',
    '37',
    '37A',
  ];

  it('runs along the film', () => {
    expect([...along].reverse().sort(compareFrameLabels)).toEqual(along);
  });

  it('gives ranks that rise along the film', () => {
    const ranks = along.map((label) => findFrameLabelRank(label) ?? -1);
    expect(ranks).toEqual([...ranks].sort((a, b) => a - b));
  });

  it('gives two labels never one rank', () => {
    fc.assert(
      fc.property(anyLabel, anyLabel, (a, b) => {
        const left = a.text;
        const right = b.text;
        expect(findFrameLabelRank(left) === findFrameLabelRank(right)).toBe(left === right);
      }),
    );
  });

  it('is a total order over labels and other text', () => {
    const text = fc.oneof(
      anyLabel.map((label) => label.text),
      fc.string({ maxLength: 4 }),
    );
    fc.assert(
      fc.property(text, text, text, (a, b, c) => {
        const [first = '', second = '', third = ''] = [a, b, c].sort(compareFrameLabels);
        expect(compareFrameLabels(first, second)).toBeLessThanOrEqual(0);
        expect(compareFrameLabels(second, third)).toBeLessThanOrEqual(0);
        expect(compareFrameLabels(first, third)).toBeLessThanOrEqual(0);
        expect(compareFrameLabels(a, b) + compareFrameLabels(b, a)).toBe(0);
      }),
    );
  });

  it('gives no rank to other text', () => {
    expect(findFrameLabelRank('leader')).toBeNull();
  });
});

describe('label after label', () => {
  const next = (text: string, steps: number, kind: 'film' | 'sheets' = 'film'): string | null => {
    const label = parseFrameLabel(text);
    const found = label.ok ? findLabelAfter(label.value, steps, kind) : null;
    return found?.text ?? null;
  };

  it.each([
    ['00', 1, '0'],
    ['0', 1, '1'],
    ['0', -1, '00'],
    ['36', 1, '37'],
    ['12A', 1, '13A'],
    ['00A', 1, '0A'],
    ['1', 35, '36'],
  ])('goes from %s by %i to %s on film', (from, steps, to) => {
    expect(next(from, steps)).toBe(to);
  });

  it.each([
    ['1A', 1, '1B'],
    ['1B', 1, '2A'],
    ['2A', -1, '1B'],
    ['1A', 5, '3B'],
    ['7', 1, '8'],
  ])('goes from %s by %i to %s on sheets', (from, steps, to) => {
    expect(next(from, steps, 'sheets')).toBe(to);
  });

  it.each([
    ['00', -1, 'film'],
    ['999', 1, 'film'],
    ['0A', -1, 'sheets'],
  ] as const)('ends at %s when it goes by %i on %s', (from, steps, kind) => {
    expect(next(from, steps, kind)).toBeNull();
  });

  // Source: truth of the folder r35-38frames: labels 00, 0, 1 .. 36 are 38 frames.
  it('lists 38 frames from 00 to 36', () => {
    const labels = listLabelsFrom(frameLabel(-1), 38);
    expect([labels[0], labels[1], labels[2], labels.at(-1), labels.length]).toEqual([
      '00',
      '0',
      '1',
      '36',
      38,
    ]);
  });

  it('comes back where it went from', () => {
    const onFilm = fc.tuple(fc.integer({ min: 0, max: 900 }), fc.constantFrom('', 'A', 'B'));
    fc.assert(
      fc.property(onFilm, fc.nat(40), fc.constantFrom('film', 'sheets'), ([number, letter], steps, kind) => {
        const there = findLabelAfter(frameLabel(number, letter), steps, kind);
        const back = there && findLabelAfter(there, -steps, kind);
        expect(back).toEqual(frameLabel(number, letter));
      }),
    );
  });
});
