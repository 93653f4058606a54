import { describe, expect, it } from 'vitest';
import { findLitter, isResourceFork } from '../../../../main/engine/scans/litter.ts';
import { pictureByName } from '../../../../main/engine/scans/picture-name.ts';

// Common practice, no source: names that systems leave beside pictures; data/scans/junk holds most of them.
describe('litter beside scans', () => {
  it.each([
    '._frame_07.jpg',
    '.DS_Store',
    'Thumbs.db',
    'desktop.ini',
    'frame_08.tif.part',
    'frame_10.jpg.tmp',
    'frame_11.jpg.crdownload',
    '~frame_09.tif',
    'frame_12.tif~',
    '.frame.jpg',
  ])('is %s', (name) => {
    expect(findLitter(name, false)).not.toBeNull();
  });

  it.each(['@eaDir', '.hidden', '$RECYCLE.BIN', '__MACOSX'])('is the folder %s', (name) => {
    expect(findLitter(name, true)).not.toBeNull();
  });

  it.each(['frame_07.jpg', 'a~b.tif', 'part 1.jpg', 'tmp.jpg', 'scan.v2.final.0007.jpg', 'CON.jpg'])(
    'is not %s',
    (name) => {
      expect(findLitter(name, false)).toBeNull();
    },
  );

  it('is known by content under any name', () => {
    // Source: RFC 1740 appendix B.
    expect(isResourceFork(Buffer.from('0005160700020000', 'hex'))).toBe(true);
    expect(isResourceFork(Buffer.from('ffd8ffe0', 'hex'))).toBe(false);
    expect(isResourceFork(Buffer.alloc(0))).toBe(false);
  });
});

describe('the ending of a name', () => {
  it.each([
    ['SCAN0001.JPG', 'yes'],
    ['a.b.tiff', 'yes'],
    ['raw.dng', 'yes'],
    ['scan0001', 'unknown'],
    ['.jpg', 'unknown'],
    ['a.heic', 'other kind of picture'],
    ['notes.txt', 'no'],
  ])('of %s says %s', (name, expected) => {
    expect(pictureByName(name)).toBe(expected);
  });
});
