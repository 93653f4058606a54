import { describe, expect, it } from 'vitest';
import { appError } from '../../../shared/api/errors.ts';
import { describeError } from '../../../shared/text/describe-error.ts';

describe('what did not happen, in words', () => {
  it.each(['it shows nothing', 'The file is empty.'])('ends the reason “%s” with one full stop', (reason) => {
    const { detail } = describeError(appError('picture_unreadable', { path: 'a.tif', reason }));
    expect(detail).toBe(`a.tif: ${reason.replace('.', '')}.`);
  });
});
