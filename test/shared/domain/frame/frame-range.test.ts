import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compareFrameLabels, frameLabel } from '../../../../shared/domain/frame/frame-label.ts';
import type { FrameRangeOptions } from '../../../../shared/domain/frame/frame-range.ts';
import { formatFrameRange, parseFrameLabels } from '../../../../shared/domain/frame/frame-range.ts';

function read(text: string, options?: FrameRangeOptions): unknown {
  const labels = parseFrameLabels(text, options);
  return labels.ok ? labels.value.map((label) => label.text) : labels.reason;
}

describe('list of frames as typed', () => {
  // By hand: each list written out in full.
  it.each([
    ['1-3', ['1', '2', '3']],
    ['00-3', ['00', '0', '1', '2', '3']],
    ['7,9-11', ['7', '9', '10', '11']],
    ['7', ['7']],
    ['12A', ['12A']],
    ['12A-14A', ['12A', '13A', '14A']],
    ['5–7 10; 3', ['3', '5', '6', '7', '10']],
    ['1 - 3', ['1', '2', '3']],
    ['1..3', ['1', '2', '3']],
    ['1 to 3', ['1', '2', '3']],
    ['07-09', ['7', '8', '9']],
    ['2,1-3,3', ['1', '2', '3']],
    ['5-5', ['5']],
  ])('reads %s', (text, labels) => {
    expect(read(text)).toEqual(labels);
  });

  it('turns the holder on sheets', () => {
    expect(read('1A-3B', { kind: 'sheets' })).toEqual(['1A', '1B', '2A', '2B', '3A', '3B']);
  });

  it('takes the half steps that the roll has', () => {
    const known = ['9', '10', '10A', '11', '12', '13'];
    expect(read('10-12', { known })).toEqual(['10', '10A', '11', '12']);
  });

  it.each([
    ['', 'label_empty'],
    [' , ', 'label_empty'],
    ['12-1', 'range_backwards'],
    ['1-2-3', 'label_not_understood'],
    ['-1', 'label_not_understood'],
    ['5-', 'label_not_understood'],
    ['1-x', 'label_not_understood'],
    ['000-3', 'label_zeros'],
    ['12-14A', 'range_letters_differ'],
    ['1-999', 'range_too_long'],
  ])('refuses %j because %s', (text, reason) => {
    expect(read(text)).toBe(reason);
  });

  it.each(['40', '1-40', '2A'])('refuses %s on a roll that does not have it', (text) => {
    expect(read(text, { known: ['1', '2', '3'] })).toEqual('frame_not_on_roll');
  });

  it('lists every frame once, in the order of the film', () => {
    const item = fc
      .integer({ min: 0, max: 40 })
      .chain((first) =>
        fc.integer({ min: first, max: 45 }).map((last) => (first === last ? `${first}` : `${first}-${last}`)),
      );
    fc.assert(
      fc.property(fc.array(item, { minLength: 1, maxLength: 5 }), (items) => {
        const found = parseFrameLabels(items.join(','));
        const labels = found.ok ? found.value.map((label) => label.text) : [];
        const wanted = new Set(
          items.flatMap((each) => {
            const [first = 0, last = first] = each.split('-').map(Number);
            return Array.from({ length: last - first + 1 }, (_, at) => String(first + at));
          }),
        );
        expect(new Set(labels)).toEqual(wanted);
        expect(labels).toEqual([...new Set(labels)].sort(compareFrameLabels));
      }),
    );
  });
});

describe('list of frames for people', () => {
  it.each([
    [['00', '0', '1', '2', '3', '7', '12A'], '00–3, 7, 12A'],
    [['2', '1'], '1, 2'],
    [[], ''],
  ])('writes %j', (labels, text) => {
    expect(formatFrameRange(labels)).toBe(text);
  });

  it('can be read back', () => {
    const label = fc
      .integer({ min: -1, max: 60 })
      .chain((number) => fc.constantFrom('', 'A').map((letter) => frameLabel(number, letter).text));
    fc.assert(
      fc.property(fc.uniqueArray(label, { minLength: 1 }), (labels) => {
        expect(read(formatFrameRange(labels))).toEqual([...labels].sort(compareFrameLabels));
      }),
    );
  });
});
