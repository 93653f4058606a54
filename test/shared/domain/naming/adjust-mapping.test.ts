import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  leaveOut,
  relabelFrom,
  reverseMapping,
  shiftMapping,
  skipFile,
} from '../../../../shared/domain/naming/adjust-mapping.ts';
import { mapScans } from '../../../../shared/domain/naming/map-scans.ts';
import type { MappedRoll, ScanMapping } from '../../../../shared/domain/naming/scan-mapping.ts';

const roll: MappedRoll = { filmFormat: '135', frameFormat: '24x36', exposures: 36, knownLabels: [] };
const pair = { width: 226, height: 160 };

function mapOf(...paths: string[]): ScanMapping {
  return mapScans({ files: paths.map((path) => ({ path })), roll });
}

function halfFrames(...paths: string[]): ScanMapping {
  return mapScans({
    files: paths.map((path) => ({ path, ...pair })),
    roll: { ...roll, frameFormat: '18x24' },
  });
}

/** Labels by file, or the reason of a refusal. */
function labels(
  mapping: ScanMapping | ReturnType<typeof shiftMapping>,
): string | Record<string, readonly string[]> {
  if ('ok' in mapping) return mapping.ok ? labels(mapping.value) : mapping.reason;
  return Object.fromEntries(
    mapping.files.map((file) => [file.path, file.frames.map((frame) => frame.label)]),
  );
}

const counters = mapOf('img001.jpg', 'img002.jpg', 'img003.jpg');

describe('shifting a mapping', () => {
  it('moves every frame by one', () => {
    expect(labels(shiftMapping(counters, 1))).toEqual({
      'img001.jpg': ['2'],
      'img002.jpg': ['3'],
      'img003.jpg': ['4'],
    });
  });

  it('moves back over 1 to 0 and 00', () => {
    expect(labels(shiftMapping(counters, -2))).toEqual({
      'img001.jpg': ['00'],
      'img002.jpg': ['0'],
      'img003.jpg': ['1'],
    });
  });

  it('refuses to move before 00', () => {
    expect(labels(shiftMapping(counters, -3))).toBe('labels_end');
  });

  it('turns the holders of sheet film', () => {
    expect(labels(shiftMapping(mapOf('holder01A.jpg', 'holder01B.jpg', 'holder02A.jpg'), 1))).toEqual({
      'holder01A.jpg': ['1B'],
      'holder01B.jpg': ['2A'],
      'holder02A.jpg': ['2B'],
    });
  });

  it('moves both halves of a picture', () => {
    expect(labels(shiftMapping(halfFrames('hf_01.jpg', 'hf_02.jpg'), 1))).toEqual({
      'hf_01.jpg': ['2', '3'],
      'hf_02.jpg': ['4', '5'],
    });
  });

  it('keeps the reason and says that a hand moved it', () => {
    const moved = shiftMapping(counters, 1);
    const reason = counters.files[0]?.reason ?? '';
    expect(moved.ok && moved.value.files[0]?.reason).toBe(`${reason} Moved by 1 by hand.`);
  });

  it('asks no more about what a hand has moved', () => {
    const moved = shiftMapping(counters, 1);
    expect(moved.ok && moved.value.questions).toEqual([]);
  });

  it('is undone by shifting back', () => {
    fc.assert(
      fc.property(fc.integer({ min: -2, max: 40 }), (steps) => {
        const there = shiftMapping(counters, steps);
        const back = there.ok ? labels(shiftMapping(there.value, -steps)) : there.reason;
        expect(back).toEqual(labels(counters));
      }),
    );
  });
});

describe('reversing a mapping', () => {
  it('gives the first file the last label', () => {
    expect(labels(reverseMapping(counters))).toEqual({
      'img001.jpg': ['3'],
      'img002.jpg': ['2'],
      'img003.jpg': ['1'],
    });
  });

  it('keeps further scans on the frame of the first', () => {
    expect(labels(reverseMapping(mapOf('01.tif', '02.tif', '02 (1).tif', '03.tif')))).toEqual({
      '01.tif': ['3'],
      '02.tif': ['2'],
      '02 (1).tif': ['2'],
      '03.tif': ['1'],
    });
  });

  it('exchanges the labels there are when some are half steps', () => {
    expect(labels(reverseMapping(mapOf('10.tif', '10A.tif', '12.tif')))).toEqual({
      '10.tif': ['12'],
      '10A.tif': ['10A'],
      '12.tif': ['10'],
    });
  });

  it('is undone by reversing again', () => {
    const anyLabels = fc.uniqueArray(fc.integer({ min: 1, max: 36 }), { minLength: 1 });
    fc.assert(
      fc.property(anyLabels, fc.boolean(), (numbers, half) => {
        const mapping = mapOf(...numbers.map((number) => `${number}.tif`), ...(half ? ['7A.tif'] : []));
        expect(labels(reverseMapping(reverseMapping(mapping)))).toEqual(labels(mapping));
      }),
    );
  });

  it('turns the places along the film round', () => {
    expect(reverseMapping(counters).files.map((file) => file.order)).toEqual([3, 2, 1]);
  });
});

describe('relabelling from a file on', () => {
  it('moves that file and those behind it', () => {
    expect(labels(relabelFrom(counters, 'img002.jpg', '5'))).toEqual({
      'img001.jpg': ['1'],
      'img002.jpg': ['5'],
      'img003.jpg': ['6'],
    });
  });

  it('changes from whole to half steps', () => {
    expect(labels(relabelFrom(counters, 'img002.jpg', '2A'))).toEqual({
      'img001.jpg': ['1'],
      'img002.jpg': ['2A'],
      'img003.jpg': ['3A'],
    });
  });

  it.each([
    ['img002.jpg', 'x', 'label_not_understood'],
    ['other.jpg', '5', 'file_not_mapped'],
    ['img002.jpg', '999', 'labels_end'],
  ])('refuses for %s the label %s because %s', (path, label, reason) => {
    expect(labels(relabelFrom(counters, path, label))).toBe(reason);
  });
});

describe('taking a file off', () => {
  it('leaves the others where they are', () => {
    expect(labels(leaveOut(counters, 'img002.jpg'))).toEqual({
      'img001.jpg': ['1'],
      'img002.jpg': [],
      'img003.jpg': ['3'],
    });
  });

  it('closes the gap when the file is skipped', () => {
    expect(labels(skipFile(counters, 'img001.jpg'))).toEqual({
      'img001.jpg': [],
      'img002.jpg': ['1'],
      'img003.jpg': ['2'],
    });
  });

  it('moves the pairs of half frames up by two', () => {
    expect(labels(skipFile(halfFrames('hf_01.jpg', 'hf_02.jpg'), 'hf_01.jpg'))).toEqual({
      'hf_01.jpg': [],
      'hf_02.jpg': ['1', '2'],
    });
  });

  it('refuses to skip what shows no frame', () => {
    expect(labels(skipFile(counters, 'other.jpg'))).toBe('file_not_mapped');
  });
});
