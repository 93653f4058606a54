import type { MethodName } from '../../shared/api/contract.ts';
import { TOPICS, type Topic } from '../../shared/api/method.ts';

/** The noun before the dot of a method's name. */
type Noun = MethodName extends `${infer Name}.${string}` ? Name : never;

/** What each noun's answers are made of: when one of these changes, what is shown of it is fetched anew. */
const READS: { readonly [Name in Noun]: readonly Topic[] } = {
  // Counts, and the label of what can be undone: any change touches it.
  archive: TOPICS,
  settings: ['archive'],
  jobs: ['archive', 'jobs'],
  stocks: ['archive', 'stocks', 'rolls'],
  batches: ['archive', 'stocks', 'rolls'],
  cameras: ['archive', 'cameras', 'rolls'],
  rolls: ['archive', 'rolls', 'stocks', 'cameras', 'frames', 'outings', 'developments', 'binders', 'scans'],
  frames: ['archive', 'frames', 'rolls', 'outings', 'developments', 'binders', 'scans'],
  tags: ['archive', 'frames'],
  outings: ['archive', 'outings', 'rolls', 'frames'],
  developments: ['archive', 'developments', 'baths', 'rolls'],
  processes: ['archive', 'developments'],
  tanks: ['archive', 'developments'],
  baths: ['archive', 'baths', 'developments', 'rolls'],
  layouts: ['archive'],
  binders: ['archive', 'binders', 'rolls'],
  pages: ['archive', 'binders', 'rolls', 'frames', 'scans'],
  filing: ['archive', 'binders', 'rolls', 'frames'],
  strips: ['archive', 'binders', 'rolls'],
  roots: ['archive', 'scans'],
  scans: ['archive', 'scans', 'rolls', 'frames'],
  sheets: ['archive', 'sheets', 'rolls', 'frames', 'scans', 'binders'],
  pictures: ['archive', 'jobs', 'scans', 'frames', 'rolls', 'binders'],
  colour: ['archive', 'scans', 'rolls', 'frames', 'developments', 'stocks', 'cameras'],
  looks: ['archive', 'scans', 'rolls', 'frames'],
  positives: ['archive', 'scans', 'rolls', 'frames'],
  searches: ['archive', 'searches'],
  search: ['archive', 'searches', 'rolls', 'frames', 'outings', 'developments', 'binders', 'scans'],
};

/** Whether the answers of `method` may differ after `topics` have changed. Unknown nouns are taken to. */
export function isTouched(method: string, topics: readonly Topic[]): boolean {
  const noun = method.split('.')[0] ?? '';
  return isNoun(noun) ? READS[noun].some((topic) => topics.includes(topic)) : true;
}

function isNoun(name: string): name is Noun {
  return Object.hasOwn(READS, name);
}
