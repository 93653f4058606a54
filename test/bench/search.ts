// Words as you type, with four facets and 200 rows, in a large made-up archive, beside a bare count of the word index
// in the same run. Run: nice -n 10 node test/bench/search.ts FOLDER 100000
import { existsSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { createArchive, openArchive } from '../../main/engine/archive/open-archive.ts';
import { createEngine } from '../../main/engine/engine.ts';
import { freshColumns } from '../../main/engine/search/frame-columns.ts';
import { readStaleWords } from '../../main/engine/search/words.ts';
import { naturalKey } from '../../shared/domain/numbering/natural-key.ts';
import { seededRandom } from '../support/seeded-random.ts';

const [folder = '', countText = '100000'] = process.argv.slice(2);
const wanted = Number(countText);
const FRAMES_PER_ROLL = 36;
const NOW = new Date('2026-05-02T10:00:00Z');
const random = seededRandom(5);
const below = (count: number) => Math.floor(random() * count);

/** Made-up words of two or three syllables; drawn so that the first are common and the last rare. */
const pick = (signs: string) => signs.charAt(below(signs.length));
const syllable = () => pick('bcdfghjklmnprstvwz') + pick('aeiou') + (random() < 0.4 ? pick('lmnrst') : '');
const VOCABULARY = Array.from(
  { length: 3000 },
  () => syllable() + syllable() + (random() < 0.5 ? syllable() : ''),
);
const word = () => VOCABULARY[Math.floor(VOCABULARY.length ** random()) - 1] ?? 'ba';

function say(what: string, ms: number, more = ''): void {
  process.stdout.write(`${what.padEnd(58)} ${ms.toFixed(1).padStart(9)} ms  ${more}\n`);
}

function timed<Result>(what: string, work: () => Result): Result {
  const start = performance.now();
  const result = work();
  say(what, performance.now() - start);
  return result;
}

function fill(): void {
  const archive = createArchive(folder, () => NOW);
  const { db } = archive;
  const adder = (table: string, names: string) =>
    db.prepare<unknown[]>(`INSERT INTO ${table} (${names}) VALUES (${names.replace(/\w+/g, '?')})`);
  const stock = adder('stock', 'name, iso, process, created_at');
  const camera = adder('camera', 'name, created_at');
  const tag = adder('tag', 'name');
  const roll = adder(
    'roll',
    'number, number_sort, stock_id, camera_id, film_format, frame_format, state, created_at',
  );
  const outing = adder(
    'outing',
    'title, date_edtf, date_typed, date_earliest, date_latest, place, created_at',
  );
  const outingRoll = adder('outing_roll', 'outing_id, roll_id, whole');
  const frame = adder('frame', 'roll_id, ordinal, label, caption, place');
  const frameTag = adder('frame_tag', 'tag_id, frame_id');
  const at = NOW.toISOString();
  db.transaction(() => {
    for (let n = 1; n <= 40; n += 1) stock.run(`Stock ${n}`, 100, 'c41', at);
    for (let n = 1; n <= 25; n += 1) camera.run(`Camera ${n}`, at);
    for (let n = 1; n <= 300; n += 1) tag.run(`tag ${n}`);
  })();
  const rolls = Math.ceil(wanted / FRAMES_PER_ROLL);
  for (let first = 0; first < rolls; first += 200) {
    db.transaction(() => {
      for (let n = first; n < Math.min(rolls, first + 200); n += 1) {
        const number = `${1980 + (n % 45)}-${String(n).padStart(5, '0')}`;
        const rollId = roll.run(
          number,
          naturalKey(number),
          1 + below(40),
          1 + below(25),
          '135',
          '24x36',
          'filed',
          at,
        ).lastInsertRowid;
        const day = `${1980 + (n % 45)}-0${1 + below(9)}-1${below(10)}`;
        const outingId = outing.run(`${word()} ${word()}`, day, day, day, day, word(), at).lastInsertRowid;
        outingRoll.run(outingId, rollId, 1);
        for (let ordinal = 1; ordinal <= FRAMES_PER_ROLL; ordinal += 1) {
          const frameId = frame.run(
            rollId,
            ordinal,
            String(ordinal),
            `${word()} ${word()} ${word()} ${word()}`,
            word(),
          ).lastInsertRowid;
          frameTag.run(1 + below(300), frameId);
        }
      }
    })();
  }
  timed('words of all frames read into the index', () => readStaleWords(db));
  archive.close();
}

function quantile(times: readonly number[], share: number): number {
  const sorted = [...times].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? Number.NaN;
}

if (folder === '') throw new Error('Give a folder for the archive.');
if (!existsSync(join(folder, 'archive.sqlite'))) {
  rmSync(folder, { recursive: true, force: true });
  timed(`archive of ${wanted} frames made`, fill);
}

const before = process.memoryUsage().rss;
const alone = openArchive(folder, () => NOW);
timed('columns read, all at once', () => freshColumns(alone.db));
alone.close();

const engine = createEngine({ now: () => NOW });
await engine.call('archive.open', { folder });
const bare = new Database(join(folder, 'archive.sqlite'), { readonly: true });
bare.pragma('cache_size = -65536');
const count = bare
  .prepare<[string], number>('SELECT count(*) FROM frame_words WHERE frame_words MATCH ?')
  .pluck();

const first = performance.now();
await engine.call('search.find', { query: 'bak', facets: ['stock', 'camera', 'year', 'tag'] });
say('first search after opening', performance.now() - first);

// Half as they are common in captions, half any word of the vocabulary.
const terms = Array.from({ length: 120 }, (_, at) =>
  (at % 2 === 0 ? word() : (VOCABULARY[below(VOCABULARY.length)] ?? '')).slice(0, 3),
);
const KINDS: readonly (readonly [string, (term: string) => unknown])[] = [
  ['words + 4 facets + 200 rows', (query) => ({ query, facets: ['stock', 'camera', 'year', 'tag'] })],
  ['words + 200 rows', (query) => ({ query })],
  [
    'words + stock + iso + year + 4 facets + 200 rows',
    (query) => ({
      query: `${query} stock:"Stock 3","Stock 4" iso:50..400 date:1985..1999`,
      facets: ['stock', 'camera', 'year', 'tag'],
    }),
  ],
  [
    'not words + 4 facets + 200 rows',
    (query) => ({ query: `not ${query}`, facets: ['stock', 'camera', 'year', 'tag'] }),
  ],
];
// Processor time beside time on the wall, since the machine may be shared.
const cpuMs = () => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
};
let bareCpu = 0;
const cpu = KINDS.map(() => 0);
const bareTimes: number[] = [];
const found: number[] = [];
const times = KINDS.map((): number[] => []);
for (const term of terms) {
  const start = performance.now();
  const bareBegun = cpuMs();
  found.push(count.get(`"${term}"*`) ?? 0);
  bareTimes.push(performance.now() - start);
  bareCpu += cpuMs() - bareBegun;
  for (const [at, [, inputOf]] of KINDS.entries()) {
    const begun = performance.now();
    const cpuBegun = cpuMs();
    await engine.call('search.find', inputOf(term));
    times[at]?.push(performance.now() - begun);
    cpu[at] = (cpu[at] ?? 0) + cpuMs() - cpuBegun;
  }
}
say(
  'bare count of the index, p50',
  quantile(bareTimes, 0.5),
  `p95 ${quantile(bareTimes, 0.95).toFixed(1)} ms; mean CPU ${(bareCpu / terms.length).toFixed(1)} ms; frames found p50 ${quantile(found, 0.5)}, p95 ${quantile(found, 0.95)}`,
);
for (const [at, [what]] of KINDS.entries()) {
  const mine = times[at] ?? [];
  const ratio = quantile(mine, 0.5) / quantile(bareTimes, 0.5);
  say(
    `${what}, p50`,
    quantile(mine, 0.5),
    `p95 ${quantile(mine, 0.95).toFixed(1)} ms; mean CPU ${((cpu[at] ?? 0) / terms.length).toFixed(1)} ms (${((cpu[at] ?? 0) / bareCpu).toFixed(2)} × bare); p50 ${ratio.toFixed(2)} × bare`,
  );
}
say('memory grown since before opening (MiB, not ms)', (process.memoryUsage().rss - before) / 2 ** 20);
bare.close();
await engine.close();
