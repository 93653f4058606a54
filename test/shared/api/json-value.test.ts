import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { weighJson } from '../../../shared/api/json-value.ts';

class Roll {
  number = 1;
}

function cycle(): unknown {
  const value: Record<string, unknown> = {};
  value.self = value;
  return value;
}

describe('weighJson', () => {
  it.each([
    ['a date', { at: new Date(0) }, '$.at'],
    ['a map', [new Map()], '$[0]'],
    ['bytes', { a: { b: new Uint8Array(2) } }, '$.a.b'],
    ['NaN', [1, Number.NaN], '$[1]'],
    ['an infinity', Infinity, '$'],
    ['a bigint', 1n, '$'],
    ['a function', () => 1, '$'],
    ['undefined in a list', [undefined], '$[0]'],
    ['undefined', undefined, '$'],
    ['an instance of a class', new Roll(), '$'],
    ['a symbol', Symbol('s'), '$'],
  ])('says where %s lies', (_what, value, at) => {
    expect(weighJson(value, 1000)).toEqual({ ok: false, reason: 'not json', at });
  });

  it('gives up on a cycle', () => {
    expect(weighJson(cycle(), 1_000_000)).toMatchObject({ ok: false, reason: 'not json' });
  });

  it('counts a property that is undefined as absent', () => {
    expect(weighJson({ a: undefined }, 100)).toEqual({ ok: true, bytes: 2 });
  });

  it('stops early at what is too large', () => {
    const value = Array.from({ length: 1000 }, () => 'x'.repeat(100));
    // The brackets are 2, each text with its quotes and comma 103: the tenth makes 2 + 10 × 103.
    expect(weighJson(value, 1000)).toMatchObject({ ok: false, reason: 'too large', bytes: 1032 });
  });

  it('weighs within the separators what the JSON text weighs, where nothing needs escaping', () => {
    const word = fc.stringMatching(/^[a-zé€𝄞]{0,20}$/u);
    const number = fc.integer();
    const value = fc.array(fc.oneof(word, number, fc.constant(null), fc.boolean()), { maxLength: 30 });
    fc.assert(
      fc.property(value, (list) => {
        const text = Buffer.byteLength(JSON.stringify(list));
        const weighed = weighJson(list, 100_000);
        // One comma more is counted than a list of n has; the empty list has none at all.
        expect(weighed).toEqual({ ok: true, bytes: text + (list.length > 0 ? 1 : 0) });
      }),
    );
  });
});
