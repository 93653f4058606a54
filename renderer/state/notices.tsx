import { createContext, use, type ReactNode } from 'react';
import { isAppError } from '../../shared/api/errors.ts';
import { describeError } from '../../shared/text/describe-error.ts';
import { createStore, useStore, type Store } from './store.ts';

/** Something to be read, until it is put away. */
export interface NoticeEntry {
  readonly key: number;
  readonly kind: 'failed' | 'said';
  readonly title: string;
  readonly detail: string;
  readonly advice: string;
}

/** What the program has to say to the user at present. */
export interface Notices {
  readonly list: Pick<Store<readonly NoticeEntry[]>, 'get' | 'subscribe'>;
  say(title: string, detail?: string): void;
  /** Says what did not happen. What was called off by the user is no failure and says nothing. */
  fail(error: unknown): void;
  putAway(key: number): void;
}

/** An empty list of notices. The same words are not listed twice. */
export function createNotices(): Notices {
  const list = createStore<readonly NoticeEntry[]>([]);
  let lastKey = 0;
  function add(entry: Omit<NoticeEntry, 'key'>): void {
    lastKey += 1;
    const others = list.get().filter(({ title, detail }) => title !== entry.title || detail !== entry.detail);
    list.set([...others, { ...entry, key: lastKey }]);
  }
  return {
    list,
    say: (title, detail = '') => add({ kind: 'said', title, detail, advice: '' }),
    fail(error) {
      if (!isAppError(error, 'cancelled')) add({ kind: 'failed', ...describeError(error) });
    },
    putAway: (key) => list.set(list.get().filter((entry) => entry.key !== key)),
  };
}

const NoticesContext = createContext<Notices | null>(null);

/** Gives the notices to what is inside. */
export function NoticesProvider({ notices, children }: { notices: Notices; children: ReactNode }) {
  return <NoticesContext value={notices}>{children}</NoticesContext>;
}

/** The notices, to say something or to put one away. */
export function useNotices(): Notices {
  const notices = use(NoticesContext);
  if (!notices) throw new Error('No notices around this component');
  return notices;
}

/** What is to be read at present, oldest first. */
export function useNoticeList(): readonly NoticeEntry[] {
  return useStore(useNotices().list);
}
