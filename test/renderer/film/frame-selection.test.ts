import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  keepFrames,
  moveInRows,
  NO_FRAMES,
  pickFrame,
  railsOf,
} from '../../../renderer/film/frame-selection.ts';

/** Three rows as on a page of strips: 1 to 6, 7 to 12, 13 and 14. */
const ROWS = [
  [1, 2, 3, 4, 5, 6],
  [7, 8, 9, 10, 11, 12],
  [13, 14],
];
const ORDER = ROWS.flat();

describe('picking frames', () => {
  it('picks one alone', () => {
    const before = pickFrame(NO_FRAMES, ORDER, 3, 'all');
    expect(pickFrame(before, ORDER, 5, 'only')).toEqual({ active: 5, anchor: 5, picked: new Set([5]) });
  });

  it('stretches a run from where it began, over the end of a row', () => {
    const from = pickFrame(NO_FRAMES, ORDER, 5, 'only');
    const run = pickFrame(from, ORDER, 8, 'to');
    expect(run).toEqual({ active: 8, anchor: 5, picked: new Set([5, 6, 7, 8]) });
  });

  it('turns a run round its beginning', () => {
    const run = pickFrame(pickFrame(NO_FRAMES, ORDER, 5, 'only'), ORDER, 8, 'to');
    expect([...pickFrame(run, ORDER, 4, 'to').picked]).toEqual([4, 5]);
  });

  it('adds a frame and takes it away again', () => {
    const two = pickFrame(pickFrame(NO_FRAMES, ORDER, 2, 'only'), ORDER, 9, 'toggle');
    expect([...two.picked]).toEqual([2, 9]);
    expect([...pickFrame(two, ORDER, 2, 'toggle').picked]).toEqual([9]);
  });

  it('begins anew when the frame a run began at is gone', () => {
    const gone = { active: 99, anchor: 99, picked: new Set([99]) };
    expect(pickFrame(gone, ORDER, 4, 'to')).toEqual({ active: 4, anchor: 4, picked: new Set([4]) });
  });

  it('forgets frames that are no longer there', () => {
    const before = { active: 99, anchor: 2, picked: new Set([2, 99]) };
    expect(keepFrames(before, ORDER)).toEqual({ active: null, anchor: 2, picked: new Set([2]) });
  });

  it('stays the same thing when all frames are there', () => {
    const before = pickFrame(NO_FRAMES, ORDER, 3, 'only');
    expect(keepFrames(before, ORDER)).toBe(before);
  });
});

describe('rails of a run', () => {
  it('are closed at the two ends of the run, open where it goes on in the next row', () => {
    expect(railsOf(ROWS, new Set([4, 5, 6, 7, 8]))).toEqual([
      [{ from: 3, to: 5, openLeft: false, openRight: true }],
      [{ from: 0, to: 1, openLeft: true, openRight: false }],
      [],
    ]);
  });

  it('are not drawn for a frame alone', () => {
    expect(railsOf(ROWS, new Set([4, 9]))).toEqual([[], [], []]);
  });

  it('cover every picked frame that has a picked neighbour, and no other', () => {
    fc.assert(
      fc.property(fc.uniqueArray(fc.constantFrom(...ORDER)), (ids) => {
        const picked = new Set(ids);
        const covered = railsOf(ROWS, picked).flatMap((rails, row) =>
          rails.flatMap(({ from, to }) => (ROWS[row] ?? []).slice(from, to + 1)),
        );
        const inRuns = ORDER.filter((id) => picked.has(id) && (picked.has(id - 1) || picked.has(id + 1)));
        expect(covered).toEqual(inRuns);
      }),
    );
  });
});

describe('moving in rows', () => {
  it.each([
    ['ArrowRight', 6, 7],
    ['ArrowLeft', 7, 6],
    ['ArrowLeft', 1, 1],
    ['ArrowRight', 14, 14],
    ['ArrowDown', 2, 8],
    ['ArrowDown', 12, 14],
    ['ArrowUp', 14, 8],
    ['ArrowUp', 3, 3],
    ['Home', 10, 7],
    ['End', 8, 12],
  ])('%s leads from %i to %i', (key, at, to) => {
    expect(moveInRows(key, false, at, ROWS)).toBe(to);
  });

  it('goes to the ends of all with Ctrl', () => {
    expect([moveInRows('Home', true, 9, ROWS), moveInRows('End', true, 9, ROWS)]).toEqual([1, 14]);
  });

  it('passes over an empty row', () => {
    expect(moveInRows('ArrowDown', false, 2, [[1, 2], [], [3, 4]])).toBe(4);
  });

  it('leaves letters alone', () => {
    expect(moveInRows('m', false, 2, ROWS)).toBeNull();
  });

  it('begins at the first frame when it was at none', () => {
    expect(moveInRows('ArrowDown', false, null, ROWS)).toBe(1);
  });

  it('leads nowhere where no film lies', () => {
    expect(moveInRows('ArrowDown', false, null, [[], []])).toBeNull();
  });
});
