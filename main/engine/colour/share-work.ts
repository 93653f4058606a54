/** One piece of work that several may wait for: it is done once, and called off only when nobody waits any more. */
interface Shared<Result> {
  readonly end: Promise<Result>;
  readonly stop: AbortController;
  waiting: number;
}

/** Work under way, by name. */
export interface SharedWork<Result> {
  /**
   * Joins the work of this name, or starts it. Whoever calls off leaves; the work goes on for the others.
   * @throws the reason of `signal` when that is aborted, and whatever the work throws
   */
  join(name: string, signal: AbortSignal, work: (signal: AbortSignal) => Promise<Result>): Promise<Result>;
}

/** Nothing under way. */
export function createSharedWork<Result>(): SharedWork<Result> {
  const under = new Map<string, Shared<Result>>();

  function start(name: string, work: (signal: AbortSignal) => Promise<Result>): Shared<Result> {
    const stop = new AbortController();
    const end = work(stop.signal).finally(() => {
      if (under.get(name)?.stop === stop) under.delete(name);
    });
    // Whoever waits gets the failure; work that everybody left must not end the process.
    end.catch(() => undefined);
    const shared: Shared<Result> = { end, stop, waiting: 0 };
    under.set(name, shared);
    return shared;
  }

  return {
    join: async (name, signal, work) => {
      signal.throwIfAborted();
      const shared = under.get(name) ?? start(name, work);
      shared.waiting += 1;
      let leave = () => {};
      const left = new Promise<never>((_done, fail) => {
        leave = () => fail(signal.reason);
        signal.addEventListener('abort', leave);
      });
      left.catch(() => undefined);
      try {
        return await Promise.race([shared.end, left]);
      } finally {
        signal.removeEventListener('abort', leave);
        shared.waiting -= 1;
        if (shared.waiting === 0) {
          // Someone who comes now starts anew instead of joining what is being stopped.
          if (signal.aborted && under.get(name) === shared) under.delete(name);
          shared.stop.abort(signal.reason);
        }
      }
    },
  };
}
