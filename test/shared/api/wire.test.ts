import { describe, expect, it } from 'vitest';
import { appError, isAppError } from '../../../shared/api/errors.ts';
import { fromWireError, toWireError } from '../../../shared/api/wire.ts';

describe('errors on the wire', () => {
  it('brings an expected error back with code and details', () => {
    const crossed = fromWireError(toWireError(appError('file_missing', { path: '/a' }), 'r1', false));
    expect([crossed.code, crossed.details]).toEqual(['file_missing', { path: '/a' }]);
  });

  it('keeps the words of a bug to itself', () => {
    const wire = toWireError(new TypeError('private'), 'r1', false);
    expect(wire).toEqual({
      code: 'internal',
      details: { reference: 'r1' },
      message: 'internal {"reference":"r1"}',
    });
  });

  it('sends a stack only when asked to', () => {
    expect(toWireError(new Error('a'), 'r1', true).stack).toContain('wire.test.ts');
  });

  it('knows a called-off operation of the platform', () => {
    expect(toWireError(AbortSignal.abort().reason, 'r1', false).code).toBe('cancelled');
  });

  it.each([
    ['a code there is none of', { code: 'no_such_code', details: {}, message: '' }],
    ['a prototype name for a code', { code: 'constructor', details: {}, message: '' }],
    ['details that do not fit the code', { code: 'file_missing', details: { file: 1 }, message: '' }],
  ])('reads %s as internal', (_what, wire) => {
    const error = fromWireError(wire);
    expect(isAppError(error, 'internal')).toBe(true);
  });
});
