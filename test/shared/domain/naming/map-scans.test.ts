import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { normalizeFrameLabel } from '../../../../shared/domain/frame/frame-label.ts';
import type { MapInput } from '../../../../shared/domain/naming/map-scans.ts';
import { mapScans } from '../../../../shared/domain/naming/map-scans.ts';
import type {
  MapOptions,
  MappedRoll,
  ScanFile,
  ScanMapping,
} from '../../../../shared/domain/naming/scan-mapping.ts';
import { sharedData } from '../../../support/shared-data.ts';

const folder = sharedData('scans');

const roll36: MappedRoll = { filmFormat: '135', frameFormat: '24x36', exposures: 36, knownLabels: [] };
const roll24: MappedRoll = { ...roll36, exposures: 24 };
const halves: MappedRoll = { ...roll36, frameFormat: '18x24' };
const squares: MappedRoll = { filmFormat: '120', frameFormat: '6x6', exposures: 12, knownLabels: [] };
const sheets: MappedRoll = { filmFormat: '4x5in', frameFormat: '4x5in', exposures: null, knownLabels: [] };

function map(paths: readonly string[], roll: MappedRoll = roll36, options: MapOptions = {}): ScanMapping {
  return mapScans({ files: paths.map((path) => ({ path })), roll, options });
}

/** Path and labels of each file, in natural order. */
function labels(mapping: ScanMapping): Record<string, string[]> {
  return Object.fromEntries(
    mapping.files.map((file) => [file.path, file.frames.map((frame) => frame.label)]),
  );
}

function numbered<Made>(from: number, to: number, name: (number: number) => Made): Made[] {
  return Array.from({ length: to - from + 1 }, (_, at) => name(from + at));
}

const three = (number: number): string => String(number).padStart(3, '0');
const two = (number: number): string => String(number).padStart(2, '0');

interface Truth {
  readonly path: string;
  readonly frames: readonly string[];
  readonly order: number;
  readonly width: number;
  readonly height: number;
  readonly rescan: boolean;
}

function field(value: unknown, name: string): unknown {
  return typeof value === 'object' && value !== null
    ? new Map<string, unknown>(Object.entries(value)).get(name)
    : null;
}

/** The files of a test roll after truth.json. */
function truthOf(rollFolder: string): Truth[] {
  const all: unknown = folder === null ? {} : JSON.parse(readFileSync(join(folder, 'truth.json'), 'utf8'));
  return Object.entries(all ?? {})
    .filter(([path]) => path.startsWith(`rolls/${rollFolder}/`))
    .map(([path, about]: [string, unknown]) => {
      const frames = field(about, 'frames');
      return {
        path,
        frames: Array.isArray(frames) ? frames.map(String) : [String(field(about, 'frame'))],
        order: Number(field(about, 'order')),
        width: Number(field(about, 'width')),
        height: Number(field(about, 'height')),
        rescan: field(about, 'rescan_of') !== undefined,
      };
    });
}

const ROLLS: readonly (readonly [string, number, MappedRoll, MapOptions])[] = [
  ['r35-38frames', 38, roll36, {}],
  ['lab-tail-first-24', 24, roll24, { reverse: true }],
  ['half-frame-72', 36, halves, {}],
  ['120-6x6-12', 13, squares, {}],
  ['mixed-pano-mask', 8, roll36, {}],
  ['gaps-and-rescans', 10, roll36, {}],
  ['sheets-4x5', 6, sheets, {}],
  ['unpadded-numbers', 9, roll36, {}],
];

describe.runIf(folder !== null).each(ROLLS)(
  'test roll %s against truth.json',
  (name, count, roll, options) => {
    const truth = truthOf(name);
    const mapping = mapScans({ files: truth, roll, options });

    it('has all its files', () => {
      expect(mapping.files).toHaveLength(count);
    });

    it('gets the labels that are drawn on the pictures', () => {
      expect(labels(mapping)).toEqual(Object.fromEntries(truth.map((each) => [each.path, each.frames])));
    });

    it('lies along the film as the truth does', () => {
      // The truth leaves numbers out where frames are missing, so places are compared, not numbers.
      const places = [...new Set(truth.map((each) => each.order))].sort((a, b) => a - b);
      const wanted = Object.fromEntries(truth.map((each) => [each.path, places.indexOf(each.order) + 1]));
      expect(Object.fromEntries(mapping.files.map((file) => [file.path, file.order]))).toEqual(wanted);
    });

    it('sees which files are further scans', () => {
      const rescans = mapping.files.filter((file) => file.version === 'rescan').map((file) => file.path);
      expect(rescans).toEqual(
        truth
          .filter((each) => each.rescan)
          .map((each) => each.path)
          .sort(),
      );
    });

    it('has a reason for every file', () => {
      for (const file of mapping.files) expect(file.reason).toMatch(/\.$/);
    });
  },
);

describe('plain counters', () => {
  const files = numbered(1, 38, (number) => `img${three(number)}.jpg`);

  it('asks for the first label when there are more files than exposures', () => {
    const mapping = map(files);
    expect(mapping.questions.map((question) => question.kind)).toEqual(['first label', 'direction']);
    expect(mapping.questions[0]?.choices.map((choice) => choice.text)).toEqual([
      '00 to 36',
      '0 to 37',
      '1 to 38',
    ]);
  });

  it('is not sure of them', () => {
    expect(map(files).files.every((file) => file.needsAnswer && file.confidence <= 0.6)).toBe(true);
  });

  it('follows the first label that the user gives', () => {
    const mapping = map(files, roll36, { firstLabel: '1' });
    expect([mapping.files[0]?.frames[0]?.label, mapping.files[37]?.frames[0]?.label]).toEqual(['1', '38']);
  });

  it('follows a first label on a half step', () => {
    const mapping = map(['img001.jpg', 'img002.jpg'], roll36, { firstLabel: '0A' });
    expect(labels(mapping)).toEqual({ 'img001.jpg': ['0A'], 'img002.jpg': ['1A'] });
  });

  it('turns the holders of sheet film from the first label on', () => {
    const mapping = map(['img001.jpg', 'img002.jpg', 'img003.jpg'], sheets, { firstLabel: '1A' });
    expect(labels(mapping)).toEqual({ 'img001.jpg': ['1A'], 'img002.jpg': ['1B'], 'img003.jpg': ['2A'] });
  });

  it('still asks for the direction while nobody has said it', () => {
    const mapping = map(files, roll36, { firstLabel: '00', reverse: null });
    expect(mapping.questions.map((question) => question.kind)).toEqual(['direction']);
  });

  it('asks no more once first label and direction are given', () => {
    const mapping = map(files, roll36, { firstLabel: '00', reverse: false });
    expect(mapping.questions).toEqual([]);
    expect(mapping.files.some((file) => file.needsAnswer)).toBe(false);
  });

  it.each([
    [36, '1', '36'],
    [37, '0', '36'],
    [38, '00', '36'],
    [39, '00', '37'],
  ])('counts %i files on a 36-exposure roll from %s to %s', (count, first, last) => {
    const { files: found } = map(numbered(1, count, (number) => `img${three(number)}.jpg`));
    expect([found[0]?.frames[0]?.label, found.at(-1)?.frames[0]?.label]).toEqual([first, last]);
  });

  it('takes the labels that the roll has when their number fits', () => {
    const mapping = map(['img001.jpg', 'img002.jpg', 'img003.jpg'], {
      ...roll36,
      knownLabels: ['0', '00', '1'],
    });
    expect(labels(mapping)).toEqual({ 'img001.jpg': ['00'], 'img002.jpg': ['0'], 'img003.jpg': ['1'] });
  });

  it('keeps gaps mirrored when the roll is turned round', () => {
    const mapping = map(['scan1.jpg', 'scan2.jpg', 'scan4.jpg', 'scan5.jpg'], roll36, { reverse: true });
    expect(labels(mapping)).toEqual({
      'scan1.jpg': ['5'],
      'scan2.jpg': ['4'],
      'scan4.jpg': ['2'],
      'scan5.jpg': ['1'],
    });
  });

  // names.tsv, group "camera-counter": order across the wrap is 9998, 9999, 0001, 0002.
  it('goes on over the end of a camera counter', () => {
    const mapping = map(['DSC_0001.jpg', 'DSC_0002.jpg', 'DSC_9998.jpg', 'DSC_9999.jpg']);
    expect(labels(mapping)).toEqual({
      'DSC_9998.jpg': ['1'],
      'DSC_9999.jpg': ['2'],
      'DSC_0001.jpg': ['3'],
      'DSC_0002.jpg': ['4'],
    });
    expect(mapping.notes.map((note) => note.kind)).toContain('counter wrap');
  });

  it('orders time stamps by time', () => {
    const mapping = map(['IMG_20230203_101010.jpg', 'IMG_20230203_040506.jpg', 'IMG_20230202_235959.jpg']);
    expect(labels(mapping)).toEqual({
      'IMG_20230202_235959.jpg': ['1'],
      'IMG_20230203_040506.jpg': ['2'],
      'IMG_20230203_101010.jpg': ['3'],
    });
  });

  it('says of a lab order that it may begin at either end', () => {
    const mapping = map(
      numbered(1, 24, (number) => `00001234${String(number).padStart(4, '0')}.jpg`),
      roll24,
    );
    expect(mapping.questions.map((question) => question.kind)).toContain('direction');
    expect(mapping.files[0]).toMatchObject({ roll: '00001234', needsAnswer: true });
  });

  it('sets files of another lab order aside', () => {
    const mapping = map(['000012340001.jpg', '000012340002.jpg', '000012350001.jpg']);
    expect(labels(mapping)).toEqual({
      '000012340001.jpg': ['1'],
      '000012340002.jpg': ['2'],
      '000012350001.jpg': [],
    });
    expect(mapping.questions.find((question) => question.kind === 'roll')?.paths).toEqual([
      '000012350001.jpg',
    ]);
  });
});

describe('names with labels', () => {
  it('gathers every size of a frame on it', () => {
    const mapping = map(['007.jpg', '007_ir.tif', '007_pos.tif', '007_raw.dng', '008.tif']);
    expect(mapping.files.map((file) => [file.path, file.frames[0]?.label, file.version])).toEqual([
      ['007.jpg', '7', 'small'],
      ['007_ir.tif', '7', 'infrared'],
      ['007_pos.tif', '7', 'positive'],
      ['007_raw.dng', '7', 'raw'],
      ['008.tif', '8', 'scan'],
    ]);
  });

  it('takes the larger of two plain files for the scan', () => {
    const files: ScanFile[] = [
      { path: 'a/07.tif', width: 600, height: 400 },
      { path: 'b/07.tif', width: 6000, height: 4000 },
    ];
    const mapping = mapScans({ files, roll: roll36 });
    expect(mapping.files.map((file) => file.version)).toEqual(['small', 'scan']);
  });

  it('tells what is missing', () => {
    const mapping = map(['roll_036_01.jpg', 'roll_036_02.jpg', 'roll_036_05.jpg', 'roll_036_06.jpg']);
    expect(mapping.notes).toContainEqual({ kind: 'gaps', text: 'No file for 3, 4.' });
  });

  it('keeps 0 and 00 two frames', () => {
    expect(labels(map(['0.jpg', '00.jpg', '1.jpg']))).toEqual({
      '0.jpg': ['0'],
      '00.jpg': ['00'],
      '1.jpg': ['1'],
    });
  });

  it('trusts a run of roll and frame', () => {
    const mapping = map(numbered(1, 36, (number) => `36-${two(number)}.tif`));
    expect(mapping.files.every((file) => !file.needsAnswer && file.roll === '36')).toBe(true);
    expect(labels(mapping)['36-09.tif']).toEqual(['9']);
  });

  it('reads one-figure frames behind a roll number, not second scans of it', () => {
    const mapping = map(
      numbered(1, 12, (number) => `12-${number}.tif`),
      squares,
    );
    expect(mapping.files.map((file) => file.frames[0]?.label)).toEqual(numbered(1, 12, String));
  });

  it.each([
    [['01 of 36.jpg', '02 of 36.jpg', '03 of 36.jpg']],
    [['01-2019.jpg', '02-2019.jpg', '03-2019.jpg']],
    [['01 take 9.jpg', '02 take 9.jpg', '03 take 9.jpg']],
  ])('looks past a number at the end that never changes: %s', (paths) => {
    expect(Object.values(labels(map(paths)))).toEqual([['1'], ['2'], ['3']]);
  });

  it('takes small letters behind the word frame for several scans', () => {
    const mapping = map(['frame 01a.tif', 'frame 01b.tif']);
    expect(mapping.files.map((file) => [file.frames[0]?.label, file.version])).toEqual([
      ['1', 'scan'],
      ['1', 'rescan'],
    ]);
  });

  it('keeps the negative and the positive of one running number together', () => {
    const mapping = map(['img001_neg.tif', 'img001_pos.tif', 'img002_neg.tif', 'img002_pos.tif']);
    expect(mapping.files.map((file) => [file.frames[0]?.label, file.version])).toEqual([
      ['1', 'scan'],
      ['1', 'positive'],
      ['2', 'scan'],
      ['2', 'positive'],
    ]);
  });

  it('is not put off by one file of another build', () => {
    const mapping = map([...numbered(1, 12, (number) => `66_${two(number)}.jpg`), 'leader 2.jpg'], squares);
    expect(labels(mapping)['66_07.jpg']).toEqual(['7']);
    expect(mapping.files.find((file) => file.path === '66_07.jpg')?.needsAnswer).toBe(false);
  });

  it('asks about a lonely pair of numbers', () => {
    expect(map(['36-07.tif']).files[0]).toMatchObject({ roll: '36', needsAnswer: true });
  });

  it('leaves a small letter without a partner a half step, to be asked', () => {
    const mapping = map(['roll_036_12.jpg', 'roll_036_12a.jpg']);
    expect(labels(mapping)).toEqual({ 'roll_036_12.jpg': ['12'], 'roll_036_12a.jpg': ['12A'] });
    expect(mapping.questions.map((question) => question.kind)).toEqual(['letters']);
  });

  it('notices that the film was scanned tail first', () => {
    const files = numbered(1, 6, (number) => ({
      path: `frame ${number}.tif`,
      scannedAt: `2020-01-01T10:0${9 - number}:00`,
    }));
    const mapping = mapScans({ files, roll: roll36 });
    expect(mapping.notes.map((note) => note.kind)).toContain('reversed');
    expect(labels(mapping)['frame 1.tif']).toEqual(['1']);
  });

  it('notices it from a running number before the label', () => {
    const mapping = map(numbered(1, 6, (number) => `00${number}_${two(25 - number)}.tif`));
    expect(mapping.notes.map((note) => note.kind)).toContain('reversed');
    expect(labels(mapping)['001_24.tif']).toEqual(['24']);
  });

  it('leaves out what the user says is no frame', () => {
    const mapping = map(['07.tif', 'leader.jpg'], roll36, { skip: ['leader.jpg'] });
    expect(mapping.files.find((file) => file.path === 'leader.jpg')).toMatchObject({
      frames: [],
      needsAnswer: false,
    });
    expect(mapping.questions).toEqual([]);
  });

  it('asks for files without a number', () => {
    const mapping = map(['07.tif', 'leader.jpg']);
    expect(mapping.questions[0]).toMatchObject({ kind: 'name', paths: ['leader.jpg'] });
  });
});

describe('files with several frames', () => {
  it('puts two half frames on the halves of a picture', () => {
    const files = [{ path: 'hf_01.jpg', width: 226, height: 160 }];
    expect(mapScans({ files, roll: halves }).files[0]?.frames).toEqual([
      { label: '1', page: 0, region: { x: 0, y: 0, width: 0.5, height: 1 } },
      { label: '2', page: 0, region: { x: 0.5, y: 0, width: 0.5, height: 1 } },
    ]);
  });

  it('leaves single half frames single', () => {
    const files = numbered(1, 72, (number) => ({ path: `hf_${two(number)}.jpg`, width: 113, height: 160 }));
    const mapping = mapScans({ files, roll: halves });
    expect(mapping.files.map((file) => file.frames.map((frame) => frame.label))).toEqual(
      numbered(1, 72, (number) => [String(number)]),
    );
  });

  it('takes as many wide pictures as frames for half frames on their side', () => {
    const files = numbered(1, 72, (number) => ({ path: `hf_${two(number)}.jpg`, width: 226, height: 160 }));
    expect(labels(mapScans({ files, roll: halves }))['hf_72.jpg']).toEqual(['72']);
  });

  it('keeps the lower number at the left when half frames were scanned tail first', () => {
    const files = numbered(1, 36, (number) => ({ path: `hf_${two(number)}.jpg`, width: 226, height: 160 }));
    const mapping = mapScans({ files, roll: halves, options: { reverse: true } });
    expect(labels(mapping)['hf_01.jpg']).toEqual(['71', '72']);
    expect(labels(mapping)['hf_36.jpg']).toEqual(['1', '2']);
  });

  // names.tsv: "strip2_07-12.tif", strip 2 with frames 7 to 12.
  it('puts the frames of a strip on its pages', () => {
    const mapping = mapScans({ files: [{ path: 'strip2_07-12.tif', pages: 6 }], roll: roll36 });
    expect(mapping.files[0]?.frames.map((frame) => [frame.page, frame.label])).toEqual([
      [0, '7'],
      [1, '8'],
      [2, '9'],
      [3, '10'],
      [4, '11'],
      [5, '12'],
    ]);
    expect(mapping.files[0]?.needsAnswer).toBe(false);
  });

  it('asks when pages and frames of a strip do not agree', () => {
    const mapping = mapScans({ files: [{ path: 'strip2_07-12.tif', pages: 5 }], roll: roll36 });
    expect(mapping.questions.map((question) => question.kind)).toEqual(['strip']);
  });

  it('lets strips without labels follow one another', () => {
    const files = [
      { path: 'strip2.tif', pages: 6 },
      { path: 'strip1.tif', pages: 6 },
    ];
    const mapping = mapScans({ files, roll: roll36 });
    expect(labels(mapping)).toEqual({
      'strip1.tif': numbered(1, 6, String),
      'strip2.tif': numbered(7, 12, String),
    });
    expect(mapping.files.every((file) => file.needsAnswer)).toBe(true);
  });

  it('names no frames for one picture of a whole strip', () => {
    const mapping = map(['strip1.tif', 'sleeve_03_page.tif']);
    expect(labels(mapping)).toEqual({ 'strip1.tif': [], 'sleeve_03_page.tif': [] });
    expect(mapping.files.every((file) => file.needsAnswer)).toBe(true);
  });
});

describe('any folder', () => {
  const name = fc.oneof(
    fc.nat(40).map((number) => `img${three(number)}.jpg`),
    fc.nat(40).map((number) => `roll_036_${two(number)}.tif`),
    fc.nat(40).map((number) => `${two(number)}a.tif`),
    fc.nat(40).map((number) => `DSC_${9980 + number > 9999 ? `00${two(number - 19)}` : 9980 + number}.jpg`),
    fc.nat(6).map((number) => `strip${number}.tif`),
    fc.constantFrom(
      'leader.jpg',
      '07-08.tif',
      '007_ir.tif',
      '000012340007.jpg',
      'IMG_20230203_040506.jpg',
      '00.jpg',
    ),
    fc.string({ unit: 'binary', maxLength: 10 }),
  );
  const input = fc.record({
    files: fc.uniqueArray(
      fc.record(
        {
          path: name,
          pages: fc.integer({ min: 1, max: 7 }),
          width: fc.constantFrom(100, 226),
          height: fc.constant(160),
        },
        { requiredKeys: ['path'] },
      ),
      { selector: (file) => file.path, maxLength: 12 },
    ),
    roll: fc.constantFrom(roll36, halves, squares, {
      ...roll36,
      exposures: null,
      knownLabels: ['1', '2', '3'],
    }),
    options: fc.constantFrom<MapOptions>(
      {},
      { reverse: true },
      { firstLabel: '00' },
      { firstLabel: '5', reverse: true },
    ),
  });
  const shuffled = input.chain((given) =>
    fc.tuple(fc.constant(given), fc.shuffledSubarray(given.files, { minLength: given.files.length })),
  );

  it('gets the same proposal in whatever order its files come', () => {
    fc.assert(
      fc.property(shuffled, ([given, files]: [MapInput, readonly ScanFile[]]) => {
        expect(mapScans({ ...given, files })).toEqual(mapScans(given));
      }),
    );
  });

  it('gets every file back once', () => {
    fc.assert(
      fc.property(input, (given) => {
        expect(
          mapScans(given)
            .files.map((file) => file.path)
            .sort(),
        ).toEqual(given.files.map((file) => file.path).sort());
      }),
    );
  });

  it('gets only labels in normal form', () => {
    fc.assert(
      fc.property(input, (given) => {
        const found = mapScans(given).files.flatMap((file) => file.frames.map((frame) => frame.label));
        expect(found.map((label) => normalizeFrameLabel(label))).toEqual(
          found.map((value) => ({ ok: true, value })),
        );
      }),
    );
  });

  it('names no frame where labels end', () => {
    const mapping = map(numbered(1, 1001, (number) => `img${String(number).padStart(4, '0')}.jpg`));
    expect([labels(mapping)['img0999.jpg'], labels(mapping)['img1001.jpg']]).toEqual([['999'], []]);
  });

  it('is asked about whatever has no frame and was not left out', () => {
    fc.assert(
      fc.property(input, (given) => {
        const silent = mapScans(given).files.filter((file) => file.frames.length === 0 && !file.needsAnswer);
        expect(silent).toEqual([]);
      }),
    );
  });
});
