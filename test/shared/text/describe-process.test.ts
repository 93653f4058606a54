import { describe, expect, it } from 'vitest';
import { describeAgitation, describeWarmth } from '../../../shared/text/describe-process.ts';
import { ruleOfThumb } from '../../../shared/domain/development/source.ts';

const source = ruleOfThumb('test');

describe('a step in words', () => {
  it('says how the tank is moved', () => {
    const scheme = {
      scheme: 'intermittent',
      firstSeconds: 30,
      everySeconds: 60,
      forSeconds: 5,
      source,
    } as const;
    expect(describeAgitation({ ...scheme, turns: 4 }, 'developer')).toBe(
      'first 30 s without rest, then 4 turns each 60 s',
    );
    expect(describeAgitation({ ...scheme, firstSeconds: 0, turns: null }, 'developer')).toBe('5 s each 60 s');
    expect(describeAgitation({ scheme: 'none', source }, 'stabiliser')).toBe('left to stand');
    expect(describeAgitation({ scheme: 'none', source }, 'water')).toBe('running water, or changes of it');
    expect(describeAgitation(null, 'bleach')).toBe('');
  });

  it.each([
    ['37.8 °C, 0.15 either way', 37.8, 37.65, 37.95],
    ['38.9 °C, 38.5 to 39.0', 38.9, 38.5, 39],
    ['20.0 °C', 20, null, null],
    ['24.0 to 41.0 °C', null, 24, 41],
    ['at least 24.0 °C', null, 24, null],
    ['at most 41.0 °C', null, null, 41],
    ['as the room', null, null, null],
  ])('says %s', (words, aimC, lowC, highC) => {
    expect(describeWarmth({ aimC, lowC, highC, source })).toBe(words);
  });
});
