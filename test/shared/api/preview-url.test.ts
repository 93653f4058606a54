import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parsePreviewPath, previewAddress } from '../../../shared/api/preview-url.ts';

describe('preview addresses', () => {
  it('read back as they were made', () => {
    fc.assert(
      fc.property(
        fc.stringMatching(/^[a-z0-9][a-z0-9._-]{0,80}$/),
        fc.constantFrom<'small' | 'large'>('small', 'large'),
        (pictureId, size) => {
          expect(parsePreviewPath(previewAddress(pictureId, size))).toEqual({ size, pictureId });
        },
      ),
    );
  });

  it.each([
    '/preview/small/../../archive.sqlite',
    '/preview/small/..%2f..%2farchive.sqlite',
    '/preview/small/..',
    '/preview/huge/abc',
    '/preview/small/',
    '/preview/small/a/b',
    '/preview/small/a\\b',
    '/preview/small/a\u0000',
  ])('does not take %j for one', (path) => {
    expect(parsePreviewPath(path)).toBeNull();
  });
});
