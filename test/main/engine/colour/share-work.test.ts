import { describe, expect, it } from 'vitest';
import { createSharedWork } from '../../../../main/engine/colour/share-work.ts';

const NEVER = new AbortController().signal;

/** Work that ends when it is let, and tells how often it began and whether it was called off. */
function makeWork() {
  let begun = 0;
  let finish = (_value: number) => {};
  let stopped = false;
  const work = (signal: AbortSignal) => {
    begun += 1;
    signal.addEventListener('abort', () => {
      stopped = true;
    });
    return new Promise<number>((done) => {
      finish = done;
    });
  };
  return { work, begun: () => begun, finish: (value: number) => finish(value), stopped: () => stopped };
}

describe('shared work', () => {
  it('is done once for all who wait for it', async () => {
    const shared = createSharedWork<number>();
    const { work, begun, finish } = makeWork();
    const both = [shared.join('a', NEVER, work), shared.join('a', NEVER, work)];
    finish(7);
    expect(await Promise.all(both)).toEqual([7, 7]);
    expect(begun()).toBe(1);
  });

  it('begins anew after it has ended', async () => {
    const shared = createSharedWork<number>();
    const { work, begun, finish } = makeWork();
    const first = shared.join('a', NEVER, work);
    finish(1);
    await first;
    const second = shared.join('a', NEVER, work);
    finish(2);
    expect(await second).toBe(2);
    expect(begun()).toBe(2);
  });

  it('goes on for the others when one calls off', async () => {
    const shared = createSharedWork<number>();
    const { work, finish, stopped } = makeWork();
    const stop = new AbortController();
    const leaving = shared.join('a', stop.signal, work);
    const staying = shared.join('a', NEVER, work);
    stop.abort(new Error('called off'));
    await expect(leaving).rejects.toThrow('called off');
    expect(stopped()).toBe(false);
    finish(3);
    expect(await staying).toBe(3);
  });

  it('is called off when nobody waits any more', async () => {
    const shared = createSharedWork<number>();
    const { work, stopped } = makeWork();
    const stop = new AbortController();
    const leaving = shared.join('a', stop.signal, work);
    stop.abort(new Error('called off'));
    await expect(leaving).rejects.toThrow('called off');
    expect(stopped()).toBe(true);
  });
});
