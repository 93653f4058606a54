import { execFileSync } from 'node:child_process';
import { existsSync, readdirSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { z } from 'zod';
import { readScan } from '../../../../main/engine/scans/read-scan.ts';
import { TIFF_TAG } from '../../../../main/engine/scans/tiff-tags.ts';
import { drawQuarters, makeJpegScan } from '../../../support/make-scan.ts';
import { sharedData } from '../../../support/shared-data.ts';
import { tempFolder } from '../../../support/temp-folder.ts';
import { writeTiff, type TiffPageToWrite } from '../../../support/write-tiff.ts';

const TODAY = '2026-01-01';
const PAGE: TiffPageToWrite = {
  width: 120,
  height: 80,
  channels: 3,
  bits: 8,
  photometric: 2,
  pixels: drawQuarters(120, 80),
  tags: {
    [TIFF_TAG.make]: 'ExampleScan',
    [TIFF_TAG.model]: 'FS-4000',
    [TIFF_TAG.software]: 'Scan driver 1.0',
    [TIFF_TAG.imageDescription]: 'Zürich, 湖',
    [TIFF_TAG.resolutionUnit]: [2],
  },
  rationals: { [TIFF_TAG.xResolution]: 200, [TIFF_TAG.yResolution]: 200 },
  exif: {
    [TIFF_TAG.dateTimeOriginal]: '1998:07:12 00:00:00',
    [TIFF_TAG.dateTimeDigitized]: '2019:11:02 21:04:05',
    [TIFF_TAG.offsetTimeDigitized]: '+09:00',
  },
};

async function metadataOf(bytes: Buffer, name = 'a.tif') {
  const path = join(tempFolder(), name);
  writeFileSync(path, bytes);
  const { metadata, remarks } = await readScan(path, { today: TODAY });
  return { ...metadata, remarks };
}

describe('what a file says about its picture', () => {
  const zone = process.env['TZ'];
  afterEach(() => {
    if (zone === undefined) delete process.env['TZ'];
    else process.env['TZ'] = zone;
  });

  it.each([
    { bigEndian: false, big: false },
    { bigEndian: true, big: false },
    { bigEndian: false, big: true },
    { bigEndian: true, big: true },
  ])('is read from a directory at the end of any TIFF: %o', async (options) => {
    expect(await metadataOf(writeTiff([PAGE], options))).toMatchObject({
      maker: 'ExampleScan',
      model: 'FS-4000',
      software: 'Scan driver 1.0',
      captions: [{ where: 'exif', text: 'Zürich, 湖' }],
      captured: '1998-07-12',
      scanned: '2019-11-02T21:04:05+09:00',
      // 120 px at 200 per inch: 15.24 mm.
      widthMm: expect.closeTo(15.24, 6),
      ppi: 200,
    });
  });

  it.each(['America/New_York', 'Asia/Tokyo', 'Pacific/Kiritimati'])('is the same in %s', async (timeZone) => {
    process.env['TZ'] = timeZone;
    expect(await metadataOf(writeTiff([PAGE]))).toMatchObject({
      captured: '1998-07-12',
      scanned: '2019-11-02T21:04:05+09:00',
    });
  });

  it('lies in the Exif block of a JPEG', async () => {
    const jpeg = await makeJpegScan(120, 80, writeTiff([PAGE]));
    expect(await metadataOf(jpeg, 'a.jpg')).toMatchObject({ maker: 'ExampleScan', captured: '1998-07-12' });
  });

  it('never makes a film size from a copy camera’s resolution', async () => {
    const camera = { ...PAGE, exif: { ...PAGE.exif, [TIFF_TAG.fileSource]: Buffer.from([3]) } };
    expect(await metadataOf(writeTiff([camera]))).toMatchObject({ widthMm: null, ppi: null });
  });

  it('is dropped where it is rubbish', async () => {
    const rubbish = {
      ...PAGE,
      tags: { ...PAGE.tags, [TIFF_TAG.make]: Buffer.from('\x01\x02\x7fabc', 'latin1') },
    };
    expect(await metadataOf(writeTiff([rubbish]))).toMatchObject({ maker: null, model: 'FS-4000' });
  });

  it('does not spoil the picture where it is damaged', async () => {
    const jpeg = await makeJpegScan(120, 80, Buffer.from('II*\0\xff\xff\xff\x7frubbish', 'latin1'));
    const { maker, remarks } = await metadataOf(jpeg, 'a.jpg');
    expect({ maker, remarks }).toEqual({ maker: null, remarks: ['metadata_damaged'] });
  });
});

const require = createRequire(import.meta.url);
const exiftool = join(dirname(require.resolve('exiftool-vendored.pl/package.json')), 'bin', 'exiftool');
const folder = sharedData('scans');
const perl = hasPerl();
if (!perl) process.stdout.write('perl is not here: the comparison with exiftool is left out\n');

function hasPerl(): boolean {
  try {
    execFileSync('perl', ['-v'], { stdio: 'ignore' });
    return existsSync(exiftool);
  } catch {
    return false;
  }
}

const toolRow = z.looseObject({
  SourceFile: z.string(),
  'IFD0:Make': z.string().optional(),
  'IFD0:Model': z.string().optional(),
  'IFD0:Software': z.string().optional(),
  'ExifIFD:CreateDate': z.string().optional(),
  'ExifIFD:DateTimeOriginal': z.string().optional(),
  'ICC_Profile:ProfileDescription': z.string().optional(),
});

describe.runIf(folder !== null && perl)('against exiftool', () => {
  it('names makers, models, software, profiles and raw dates alike', async () => {
    const top = folder ?? '';
    const folders = ['dates', 'metadata', 'real-scans', 'tiff', 'dng', 'infrared', 'colour', 'pages'];
    const files = folders.flatMap((name) =>
      readdirSync(join(top, name), { withFileTypes: true })
        .filter((entry) => entry.isFile())
        .map((entry) => join(top, name, entry.name)),
    );
    const output = execFileSync('perl', [exiftool, '-j', '-G1', '-n', ...files], {
      encoding: 'utf8',
      stdio: ['ignore', 'pipe', 'ignore'],
      maxBuffer: 64 * 1024 * 1024,
      env: { ...process.env, TZ: 'UTC' },
    });
    const rows = z.array(toolRow).parse(JSON.parse(output));
    expect(rows.length).toBe(files.length);
    const differing: string[] = [];
    for (const row of rows) {
      const { metadata } = await readScan(row.SourceFile, { today: TODAY, size: 'small' });
      const compare = (what: string, ours: string | null | undefined, theirs: string | undefined) => {
        if ((ours ?? null) !== (theirs?.trim() ?? null))
          differing.push(`${row.SourceFile} ${what}: ${ours} / ${theirs}`);
      };
      compare('maker', metadata?.maker, row['IFD0:Make']);
      compare('model', metadata?.model, row['IFD0:Model']);
      compare('software', metadata?.software, row['IFD0:Software']);
      compare('profile', metadata?.profile, row['ICC_Profile:ProfileDescription']);
      const digitized = row['ExifIFD:CreateDate'];
      if (digitized !== undefined) compare('scan date', metadata?.scannedRaw?.trim(), digitized);
      const original = row['ExifIFD:DateTimeOriginal'];
      if (original !== undefined) compare('capture date', metadata?.capturedRaw?.trim(), original);
    }
    expect(differing).toEqual([]);
  });
});
