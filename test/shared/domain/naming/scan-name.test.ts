import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseFrameLabels } from '../../../../shared/domain/frame/frame-range.ts';
import { readScanName } from '../../../../shared/domain/naming/scan-name.ts';
import { sharedData } from '../../../support/shared-data.ts';

const folder = sharedData('scans');

interface NameRow {
  readonly file: string;
  readonly roll: string;
  readonly frame: string;
  readonly certainty: string;
}

function readRows(path: string): NameRow[] {
  return readFileSync(path, 'utf8')
    .split('\n')
    .slice(1)
    .filter((line) => line !== '')
    .map((line) => {
      const [, file = '', roll = '', frame = '', certainty = ''] = line.split('\t');
      return { file, roll, frame, certainty };
    });
}

/** `?` and an empty cell: no label can be known. `07..12` is a run; leading zeros are those of the file name. */
function labelsOf(frame: string): readonly string[] {
  if (frame === '?' || frame === '') return [];
  const labels = parseFrameLabels(frame);
  return labels.ok ? labels.value.map((label) => label.text) : [`not readable: ${frame}`];
}

describe.runIf(folder !== null)('names of scans against names.tsv', () => {
  const rows = folder === null ? [] : readRows(join(folder, 'names', 'names.tsv'));

  it('sees all rows', () => {
    // MANIFEST.md: "names.tsv: 66 scan file names".
    expect(rows).toHaveLength(66);
  });

  it.each(rows)('reads $file', ({ file, roll, frame, certainty }) => {
    const name = readScanName(file);
    expect({ roll: name.roll ?? '', labels: name.labels, certainty: name.certainty }).toEqual({
      roll,
      labels: labelsOf(frame),
      certainty,
    });
  });

  it.each(rows)('gives a reason for $file', ({ file }) => {
    expect(readScanName(file).reason).toMatch(/^[\p{Lu}\p{N}].+\.$/u);
  });
});

describe.runIf(folder !== null)('names of scans against paths.json', () => {
  const read: unknown =
    folder === null ? [] : JSON.parse(readFileSync(join(folder, 'names', 'paths.json'), 'utf8'));
  const paths = Array.isArray(read) ? read.map((entry: { path: string }) => entry.path) : [];

  it('reads a composed and a decomposed name as one', () => {
    const [composed, decomposed] = paths.slice(0, 2).map((path) => readScanName(path));
    expect(composed?.path).not.toBe(decomposed?.path);
    expect({ ...composed, path: '' }).toEqual({ ...decomposed, path: '' });
  });

  it.each(paths)('is never sure of a frame without a word for it: %s', (path) => {
    const name = readScanName(path);
    expect(name.certainty === 'ask' || /frame|кадр/.test(path)).toBe(true);
  });
});

describe('names of scans by hand', () => {
  it.each([
    ['Zürich Café/Übung_01.jpg', null, ['1'], 'ask'],
    ['Москва зима/кадр 03.jpg', null, ['3'], 'sure'],
    ['emoji 🎞️/frame 1 📷.jpg', null, ['1'], 'sure'],
    ['hash #12/50% off?/a&b +c=d;e.jpg', null, [], 'ask'],
    ['dots/scan.v2.final.0007.jpg', null, [], 'ask'],
    ['upper/SCAN0001.JPG', null, [], 'ask'],
    ['tab/tab\there 01.jpg', null, ['1'], 'ask'],
    ['2024-031-12A_01.tif', '2024-031', ['12A'], 'ask'],
    ['roll_036_07_1.jpg', '036', ['7'], 'ask'],
    ['roll_036_03a.jpg', '036', ['3A'], 'ask'],
    ['film 12 frame 3.jpg', '12', ['3'], 'sure'],
    ['12-2.jpg', null, ['12'], 'ask'],
    ['07-12.jpg', null, ['7', '8', '9', '10', '11', '12'], 'ask'],
    ['DSC_9998-2.jpg', null, [], 'ask'],
    ['holder 3 B.tif', null, ['3B'], 'sure'],
    ['0001.jpg', null, [], 'ask'],
    ['', null, [], 'ask'],
  ])('reads %s', (path, roll, labels, certainty) => {
    expect(readScanName(path)).toMatchObject({ roll, labels, certainty });
  });

  it.each([
    ['007_raw.dng', 'raw', null],
    ['007.dng', 'raw', null],
    ['007_pos.tif', 'positive', null],
    ['007_ir.tif', 'infrared', null],
    ['007_ir_final.tif', 'infrared', null],
    ['007_small.jpg', 'small', null],
    ['007.jpg', 'scan', null],
    ['frame 7 copy.tif', 'copy', null],
    ['frame 7 copy 2.tif', 'copy', 2],
    ['frame 7 (1).tif', 'copy', 1],
    ['frame 7-2.tif', 'rescan', 2],
    ['frame 7_v2.tif', 'rescan', 2],
    ['roll-0042_frame-07A_scan-2.tif', 'rescan', 2],
    ['66_07-2.jpg', 'rescan', 2],
    ['frame 7 rescan.tif', 'rescan', null],
  ])('sees in %s the version %s', (path, version, versionNumber) => {
    expect(readScanName(path)).toMatchObject({ version, versionNumber });
  });

  it.each([
    ['IMG_20230203_040506.jpg', '2023-02-03T04:05:06', null],
    ['2021-03-14 10.20.30 7.tif', '2021-03-14T10:20:30', 7],
    ['Scan-190312-0007.jpg', '2019-03-12', 7],
    ['Scan-199912-0007.jpg', null, 7],
    ['20231303_07.jpg', null, 7],
  ])('finds in %s the scan time %s', (path, instant, position) => {
    expect(readScanName(path)).toMatchObject({ instant, position });
  });

  it.each([
    ['Roll 36/07.jpg', '36'],
    ['2019-R30/07.jpg', '2019-R30'],
    ['2026-001/07.jpg', '2026-001'],
    ['C:\\Scans\\film_12\\07.jpg', '12'],
    ['holiday/07.jpg', null],
    ['07.jpg', null],
  ])('takes the folder of %s as a hint for roll %s', (path, folderRoll) => {
    expect(readScanName(path).folderRoll).toBe(folderRoll);
  });

  it('knows the number of the roll at hand', () => {
    expect(readScanName('2026-001_12A.tif', { rollNumber: '2026-001' })).toMatchObject({
      roll: '2026-001',
      labels: ['12A'],
      certainty: 'sure',
    });
  });

  it('knows a roll number with a stroke by the hyphen that a file name has instead', () => {
    expect(readScanName('C-123-A07 12.tif', { rollNumber: 'C-123/A07' })).toMatchObject({
      roll: 'C-123/A07',
      labels: ['12'],
    });
  });

  it('puts further scans of one running number into the series of the first', () => {
    const series = ['img001.tif', 'img001_ir.tif', 'img001-2.tif', 'img002.tif', 'img002 copy.tif'];
    expect(new Set(series.map((path) => readScanName(path).series)).size).toBe(1);
  });

  it('answers any name', () => {
    const piece = fc.oneof(
      fc.string({ unit: 'binary', maxLength: 12 }),
      fc.constantFrom(
        'roll',
        'frame ',
        '_',
        '-',
        '07',
        '12A',
        '0001',
        'strip',
        'scan',
        '(1)',
        '20230203',
        '.jpg',
      ),
    );
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 8 }), (pieces) => {
        const name = readScanName(pieces.join(''));
        expect(name.labels.length > 0 || name.certainty === 'ask').toBe(true);
      }),
    );
  });
});
