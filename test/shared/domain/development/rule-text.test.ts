import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  formatExtension,
  formatPushTable,
  formatTimePoints,
  parseExtension,
  parsePushTable,
  parseTimePoints,
} from '../../../../shared/domain/development/rule-text.ts';
import { C41_PUSH } from '../../../../shared/domain/development/push-pull.ts';
import { yours } from '../../../../shared/domain/development/source.ts';

const MINE = yours('test');

function valueOf<Value>(read: { ok: true; value: Value } | { ok: false; reason: string }): Value {
  if (!read.ok) throw new Error(read.reason);
  return read.value;
}

describe('a time table as it is typed', () => {
  it('is read in minutes and °C', () => {
    expect(valueOf(parseTimePoints('13:00@25, 8:00 @ 30', MINE))).toEqual([
      { seconds: 780, celsius: 25, source: MINE },
      { seconds: 480, celsius: 30, source: MINE },
    ]);
  });

  it.each(['8:00', '8:00@', '@30', '8@30', '8:00@30@31', '-8:00@30', '8:00@warm'])('refuses %s', (text) => {
    expect(parseTimePoints(text, MINE).ok).toBe(false);
  });

  it('comes back as it was typed', () => {
    const row = fc.record({
      seconds: fc.integer({ min: 1, max: 7200 }),
      celsius: fc.integer({ min: 100, max: 500 }).map((tenths) => tenths / 10),
    });
    fc.assert(
      fc.property(fc.array(row, { maxLength: 6 }), (rows) => {
        const read = valueOf(parseTimePoints(formatTimePoints(rows), MINE));
        expect(read).toEqual(rows.map((each) => ({ ...each, source: MINE })));
      }),
    );
  });
});

describe('a table of push and pull as it is typed', () => {
  it('is half a minute a stop as the C-41 one', () => {
    // Facts 4.2: 3:45 and 4:15 on 3:15, half a minute less for a pull.
    const typed = '-1=-0:30, 1=0:30, 2=1:00';
    expect(formatPushTable(C41_PUSH)).toBe(typed);
    expect(valueOf(parsePushTable(typed, MINE))).toEqual({
      kind: 'seconds',
      rows: C41_PUSH.rows,
      source: MINE,
    });
  });

  it('may be in factors', () => {
    expect(valueOf(parsePushTable('−1=x0.8; +1=×1.4', MINE))).toEqual({
      kind: 'factor',
      rows: [
        { stops: -1, value: 0.8 },
        { stops: 1, value: 1.4 },
      ],
      source: MINE,
    });
  });

  it('is none when nothing is typed', () => {
    expect(valueOf(parsePushTable(' ', MINE))).toBeNull();
  });

  it.each(['1', '1=', '1=30', '1=x', '1=0:30, 2=x1.4', '1=0:30=2'])('refuses %s', (text) => {
    expect(parsePushTable(text, MINE).ok).toBe(false);
  });
});

describe('a rule for added time as it is typed', () => {
  it('is a part for every roll', () => {
    expect(valueOf(parseExtension('2,5 %', MINE))).toEqual({
      kind: 'percent',
      percentPerRoll: 2.5,
      source: MINE,
    });
  });

  it('is a table from a roll on', () => {
    // Facts 4.3: 3:15 for rolls 1 to 4, 3:30 for 5 to 8, 3:45 for 9 to 12.
    const typed = '1=3:15, 5=3:30, 9=3:45';
    const rule = valueOf(parseExtension(typed, MINE));
    expect(rule).toMatchObject({
      kind: 'steps',
      rows: [{ fromRoll: 1, seconds: 195 }, {}, { seconds: 225 }],
    });
    expect(formatExtension(rule)).toBe(typed);
  });

  it('is none for nothing or “none”', () => {
    expect([valueOf(parseExtension('', MINE)), valueOf(parseExtension('none', MINE))]).toEqual([null, null]);
  });

  it.each(['2', 'two %', '1.5=3:15', '1=3', '1=3:15, 5', '-2%'])('refuses %s', (text) => {
    expect(parseExtension(text, MINE).ok).toBe(false);
  });
});
