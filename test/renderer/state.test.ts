// @vitest-environment jsdom
import fc from 'fast-check';
import { beforeEach, describe, expect, it } from 'vitest';
import { CONTRACT } from '../../shared/api/contract.ts';
import { appError } from '../../shared/api/errors.ts';
import { TOPICS } from '../../shared/api/method.ts';
import { isTouched } from '../../renderer/api/topics.ts';
import { createNotices } from '../../renderer/state/notices.tsx';
import { formatRoute, parseRoute } from '../../renderer/state/route.ts';
import { createViewState } from '../../renderer/state/view-state.tsx';
import { describeJob, describeSeconds } from '../../renderer/api/job-text.ts';
import { findByTyping, moveInList } from '../../renderer/ui/list-keys.ts';
import { placeBeside } from '../../renderer/ui/place-beside.ts';

beforeEach(() => window.history.replaceState(null, '', '/'));

describe('routes', () => {
  it('read back as they were written', () => {
    const word = fc.string({ unit: 'grapheme', minLength: 1, maxLength: 12 });
    const params = fc.dictionary(word, word, { maxKeys: 3 });
    fc.assert(
      fc.property(word, fc.array(word, { maxLength: 3 }), params, (view, ids, given) => {
        // A plain object, as reading gives one.
        const route = { view, ids, params: { ...given } };
        expect(parseRoute(formatRoute(route))).toEqual(route);
      }),
    );
  });

  it.each(['', '#', '#/', '#/%', '#?a=b'])('is none in the address %j', (hash) => {
    expect(parseRoute(hash)).toBeNull();
  });
});

describe('view state', () => {
  it('goes back where it was', async () => {
    const state = createViewState(window, { view: 'rolls' });
    state.go({ view: 'roll', ids: [12] });
    state.adjust({ frames: '3-9' });
    expect(window.location.hash).toBe('#/roll/12?frames=3-9');
    const told = new Promise<void>((resolve) => state.route.subscribe(resolve));
    window.history.back();
    await told;
    expect(state.route.get()).toEqual({ view: 'rolls', ids: [], params: {} });
    state.close();
  });

  it('leaves out what was set to nothing', () => {
    const state = createViewState(window, { view: 'rolls' });
    state.go({ view: 'rolls', params: { words: 'a', state: 'filed' } });
    state.adjust({ words: null });
    expect(window.location.hash).toBe('#/rolls?state=filed');
    state.close();
  });
});

describe('notices', () => {
  it('stay until they are put away, each once', () => {
    const notices = createNotices();
    notices.fail(appError('disk_full', { path: '/a' }));
    notices.fail(appError('disk_full', { path: '/a' }));
    notices.say('The sheet was saved');
    const [first, second] = notices.list.get();
    expect([first?.kind, second?.title]).toEqual(['failed', 'The sheet was saved']);
    notices.putAway(first?.key ?? 0);
    expect(notices.list.get()).toEqual([second]);
  });

  it('say nothing of what the user called off', () => {
    const notices = createNotices();
    notices.fail(appError('cancelled', {}));
    expect(notices.list.get()).toEqual([]);
  });
});

describe('what a change touches', () => {
  it('is at least every answer named after it', () => {
    const untouched = Object.keys(CONTRACT).filter((name) => !isTouched(name, TOPICS));
    expect(untouched).toEqual([]);
    expect([isTouched('rolls.rows', ['rolls']), isTouched('search.frames', ['frames'])]).toEqual([
      true,
      true,
    ]);
  });

  it('is everything when another archive is opened', () => {
    expect(Object.keys(CONTRACT).filter((name) => !isTouched(name, ['archive']))).toEqual([]);
  });

  it('leaves the rest as it is', () => {
    expect([isTouched('stocks.list', ['binders']), isTouched('rolls.rows', ['jobs'])]).toEqual([
      false,
      false,
    ]);
  });
});

describe('keys in a list', () => {
  it.each([
    ['ArrowDown', 3, 4],
    ['ArrowDown', 9, 9],
    ['ArrowUp', 0, 0],
    ['PageDown', 3, 8],
    ['PageDown', 7, 9],
    ['PageUp', 3, 0],
    ['Home', 5, 0],
    ['End', 5, 9],
    ['Tab', 5, null],
  ])('%s from %i of ten goes to %s', (key, from, to) => {
    expect(moveInList(key, from, 10, 5)).toBe(to);
  });

  it('move nowhere in an empty one', () => {
    expect(moveInList('End', 0, 0, 5)).toBeNull();
  });

  it('find the next of a letter, going round', () => {
    const names = ['Alder', 'Birch', 'Ash'];
    expect([findByTyping(names, 'a', 0), findByTyping(names, 'a', 2), findByTyping(names, 'x', 0)]).toEqual([
      2,
      0,
      null,
    ]);
  });
});

describe('a list beside its button', () => {
  const room = { width: 1000, height: 600 };

  it('opens below where there is room', () => {
    const button = { left: 100, right: 200, top: 100, bottom: 130 };
    expect(placeBeside(button, room, 200, 160)).toEqual({
      left: 100,
      top: 132,
      maxHeight: 200,
      minWidth: 100,
    });
  });

  it('opens above when there is more room there', () => {
    const button = { left: 900, right: 980, top: 500, bottom: 530 };
    // 160 wide, 8 from the edge: 1000 − 160 − 8 = 832. Above: 500 − 200 − 2 = 298.
    expect(placeBeside(button, room, 200, 160)).toEqual({
      left: 832,
      top: 298,
      maxHeight: 200,
      minWidth: 80,
    });
  });
});

describe('how far a job is', () => {
  const job = {
    id: 1,
    kind: 'scan-in',
    title: 'Reading scans',
    state: 'running',
    done: 120,
    total: 500,
    failed: 0,
    startedAt: '2026-01-01T00:00:00.000Z',
    endedAt: null,
  } as const;

  it('gives rate and rest from what was seen', () => {
    // 100 files in 10 s are 10 a second; 380 are left: 38 s.
    expect(describeJob(job, { atMs: 0, done: 20 }, 10_000)).toBe('120 of 500, 10 a second, 38 s left');
  });

  it('gives no rate from a moment’s sight', () => {
    expect(describeJob(job, { atMs: 0, done: 110 }, 500)).toBe('120 of 500');
  });

  it('says how many could not be read, and where a stopped one stands', () => {
    expect(describeJob({ ...job, failed: 2, state: 'stopped' }, { atMs: 0, done: 0 }, 9000)).toBe(
      'stopped at 120 of 500, 2 not read',
    );
  });

  it('says a slow rate the other way round', () => {
    // 5 in 60 s: one in 12 seconds; 380 left take 4560 s, which is 76 min.
    expect(describeJob(job, { atMs: 0, done: 115 }, 60_000)).toBe(
      '120 of 500, one in 12 seconds, 76 min left',
    );
  });

  it.each([
    [0, '1 s'],
    [89, '89 s'],
    [150, '3 min'],
    [7200, '2 h 0 min'],
    [9000, '2 h 30 min'],
  ])('says %i seconds as %s', (seconds, words) => {
    expect(describeSeconds(seconds)).toBe(words);
  });
});
