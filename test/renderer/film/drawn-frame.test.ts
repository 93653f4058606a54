import { describe, expect, it } from 'vitest';
import { describeFrame, pictureOnFilm, quarterTurn } from '../../../renderer/film/drawn-frame.ts';
import type { FrameVersion } from '../../../shared/api/methods/film-methods.ts';
import { bareFrame } from './some-film.ts';

const WHOLE = { x: 0, y: 0, width: 1, height: 1 };

function version(change: Partial<FrameVersion>): FrameVersion {
  return {
    frameScanId: 1,
    scanId: 1,
    pictureId: 'abc-0',
    page: 0,
    path: 'a.jpg',
    version: 'scan',
    best: true,
    state: 'good',
    width: 3000,
    height: 2000,
    region: WHOLE,
    turned: 0,
    mirrored: false,
    reason: '',
    confidence: 1,
    ...change,
  };
}

const frame = (change: { turned?: number; mirrored?: boolean; frameFormat?: string } = {}) => ({
  turned: 0,
  mirrored: false,
  frameFormat: '24x36',
  ...change,
});

describe('a picture on its film', () => {
  it('lies as it was scanned when it lies already', () => {
    expect(pictureOnFilm(frame(), version({}), '135', 'small').turned).toBe(0);
  });

  it('is laid on its side when it stands and the frame lies', () => {
    expect(pictureOnFilm(frame(), version({ width: 2000, height: 3000 }), '135', 'small').turned).toBe(90);
  });

  it('stands on a half frame, which stands itself', () => {
    const half = frame({ frameFormat: '18x24' });
    expect(pictureOnFilm(half, version({ width: 2000, height: 3000 }), '135', 'small').turned).toBe(0);
  });

  it('judges a part of a picture by its own shape', () => {
    // A strip scan of 12000 × 1600 px: a sixth of it is 2000 × 1600, which lies.
    const part = version({ width: 12_000, height: 1600, region: { x: 0, y: 0, width: 1 / 6, height: 1 } });
    expect(pictureOnFilm(frame(), part, '135', 'small').turned).toBe(0);
  });

  it('adds the turn of the frame to that of the scan', () => {
    const turned = pictureOnFilm(frame({ turned: 90 }), version({ turned: 90 }), '135', 'small');
    expect(turned.turned).toBe(180);
  });

  it('is not mirrored when both frame and scan are', () => {
    expect(
      pictureOnFilm(frame({ mirrored: true }), version({ mirrored: true }), '135', 'small').mirrored,
    ).toBe(false);
  });

  it.each([
    [0, 0],
    [450, 90],
    [-90, 270],
    [720, 0],
  ])('takes %i degrees for %i', (degrees, turned) => {
    expect(quarterTurn(degrees)).toBe(turned);
  });
});

describe('a frame in words', () => {
  const mark = { x: null, y: null, width: null, height: null };

  it('says that it has no scan', () => {
    expect(describeFrame(bareFrame(12))).toBe('Frame 12, no scan');
  });

  it('says marks, scans and faults', () => {
    const picture = {
      address: '/p',
      region: WHOLE,
      turned: 0,
      mirrored: false,
      widthPx: null,
      heightPx: null,
    } as const;
    const full = bareFrame(16, {
      caption: 'Ewe and lamb',
      picture,
      scans: 2,
      marks: [
        { kind: 'box', ...mark },
        { kind: 'crop', x: 0, y: 0, width: 1, height: 1 },
      ],
      faults: [{ kind: 'light leak', edge: 'top' }],
    });
    expect(describeFrame(full)).toBe(
      'Frame 16, Ewe and lamb, marked print this and cropped, 2 scans, fault: light leak',
    );
  });
});
