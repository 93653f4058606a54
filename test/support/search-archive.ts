import { join } from 'node:path';
import { createArchive } from '../../main/engine/archive/open-archive.ts';
import { naturalKey } from '../../shared/domain/numbering/natural-key.ts';
import { seededRandom } from './seeded-random.ts';
import { TEST_DAY } from './make-archive.ts';
import { tempFolder } from './temp-folder.ts';

/** A calendar date with the first and last day that it can mean, written down by hand; null is open. */
export interface Span {
  readonly edtf: string;
  readonly earliest: string | null;
  readonly latest: string | null;
}

/** One frame with all that the archive knows of it, flat. */
export interface KnownFrame {
  readonly roll: string;
  readonly rollAt: number;
  readonly label: string;
  readonly ordinal: number;
  readonly title: string | null;
  readonly stock: string | null;
  readonly maker: string | null;
  readonly iso: number | null;
  readonly ei: number | null;
  readonly camera: string | null;
  readonly lens: string | null;
  readonly format: string;
  readonly state: string;
  readonly expires: Span | null;
  readonly caption: string | null;
  readonly place: string | null;
  readonly tags: readonly string[];
  readonly own: Span | null;
  readonly outing: {
    readonly title: string;
    readonly place: string | null;
    readonly date: Span | null;
  } | null;
  readonly development: {
    readonly process: string;
    readonly date: Span;
    readonly push: number;
    readonly temperature: number | null;
    readonly used: number | null;
    readonly bath: string;
  } | null;
  readonly stockProcess: string | null;
  readonly binder: string | null;
  readonly page: number | null;
  readonly mark: string | null;
  readonly fault: string | null;
  readonly scan: { readonly kind: string; readonly width: number; readonly bytes: number } | null;
}

// Spans by the rules of EDTF (ISO 8601-2): a month is its first to last day, `..` an open end, 22 summer.
export const SPANS: readonly Span[] = [
  { edtf: '1998', earliest: '1998-01-01', latest: '1998-12-31' },
  { edtf: '1998-07', earliest: '1998-07-01', latest: '1998-07-31' },
  { edtf: '1998-22', earliest: '1998-06-01', latest: '1998-08-31' },
  { edtf: '1999-02-11', earliest: '1999-02-11', latest: '1999-02-11' },
  { edtf: '2004-12~', earliest: '2004-12-01', latest: '2004-12-31' },
  { edtf: '../1999', earliest: null, latest: '1999-12-31' },
  { edtf: '2006/..', earliest: '2006-01-01', latest: null },
  { edtf: '197X', earliest: '1970-01-01', latest: '1979-12-31' },
];

export const STOCKS = [
  { name: 'Halde 100', maker: 'North Works', iso: 100, process: 'c41' },
  { name: 'Slow 25', maker: null, iso: 25, process: 'bw' },
  { name: 'Fenn 400', maker: 'Øre', iso: 400, process: 'e6' },
] as const;
export const CAMERAS = ['Box six', 'Grey rangefinder'] as const;
export const LENSES = ['Wide 28', 'Long 135'] as const;
export const TAGS = ['boat', 'Łódź trip', 'snow'] as const;
export const CAPTIONS = [
  'Red boat at the quay',
  'Straße im Schnee',
  'Øresund, red sky',
  'the empty house',
] as const;
export const PLACES = ['Low quay', 'Łódź', 'Upper Valley'] as const;
export const STATES = ['in camera', 'to develop', 'developed', 'filed'] as const;
export const MARKS = ['box', 'dot', 'stroke', 'crop'] as const;
export const FAULTS = ['light leak', 'scratch', 'dust'] as const;
const OUTINGS = [
  { title: 'Harbour walk', place: 'Low quay', date: SPANS[1] ?? null },
  { title: 'Snow day', place: null, date: SPANS[3] ?? null },
  { title: 'Undated', place: 'Upper Valley', date: null },
] as const;

const NOW = TEST_DAY.toISOString();

/** Makes an archive of random frames, written by plain SQL, and tells what is in it. */
export function makeSearchArchive(seed: number, rolls: number): { folder: string; frames: KnownFrame[] } {
  const folder = join(tempFolder(), 'archive');
  const archive = createArchive(folder, () => TEST_DAY);
  const { db } = archive;
  const random = seededRandom(seed);
  const pick = <Item>(items: readonly Item[]): Item => {
    const item = items[Math.floor(random() * items.length)];
    if (item === undefined) throw new Error('Nothing to pick from');
    return item;
  };
  const maybe = <Item>(items: readonly Item[]): Item | null => (random() < 0.4 ? null : pick(items));
  const add = (table: string, row: Readonly<Record<string, string | number | null>>): number => {
    const names = Object.keys(row);
    const sql = `INSERT INTO ${table} (${names.join(', ')}) VALUES (${names.map((name) => `:${name}`).join(', ')})`;
    return Number(db.prepare(sql).run(row).lastInsertRowid);
  };
  const span = (name: string, date: Span | null) => ({
    [`${name}_edtf`]: date?.edtf ?? null,
    [`${name}_typed`]: date?.edtf ?? null,
    [`${name}_earliest`]: date?.earliest ?? null,
    [`${name}_latest`]: date?.latest ?? null,
  });
  const ids = <Item>(items: readonly Item[], make: (item: Item) => number) =>
    new Map<unknown, number>(items.map((item) => [item, make(item)] as const));

  const frames: KnownFrame[] = [];
  db.transaction(() => {
    const stocks = ids(STOCKS, (stock) => add('stock', { ...stock, created_at: NOW }));
    const cameras = ids(CAMERAS, (name) => add('camera', { name, created_at: NOW }));
    const lenses = ids(LENSES, (name) => add('lens', { name }));
    const tags = ids(TAGS, (name) => add('tag', { name }));
    const baths = ids(['Tray one', 'Tray two'], (name) =>
      add('bath', { name, kind: 'developer', created_at: NOW }),
    );
    const outings = ids(OUTINGS, ({ title, place, date }) =>
      add('outing', { title, place, ...span('date', date), created_at: NOW }),
    );
    const binders = ids(['Binder A', 'Green binder'], (name) =>
      add('binder', { name, name_sort: naturalKey(name), created_at: NOW }),
    );
    const root = add('scan_root', { path: '/scans', created_at: NOW });
    let page = 0;
    for (let at = 0; at < rolls; at += 1) {
      const number = `20${String(10 + (at % 3))}-${at + 1}`;
      const stock = maybe(STOCKS);
      const camera = maybe(CAMERAS);
      const expires = maybe(SPANS);
      const title = maybe(['Coast', 'Garden days']);
      const ei = maybe([50, 100, 320]);
      const format = pick(['135', '120']);
      const state = pick(STATES);
      const rollId = add('roll', {
        number,
        number_sort: naturalKey(number),
        title,
        stock_id: stock === null ? null : (stocks.get(stock) ?? null),
        camera_id: camera === null ? null : (cameras.get(camera) ?? null),
        film_format: format,
        frame_format: format === '135' ? '24x36' : '6x6',
        exposure_index: ei,
        ...span('expires', expires),
        state,
        created_at: NOW,
      });
      const wholeOuting = maybe(OUTINGS);
      if (wholeOuting !== null)
        add('outing_roll', { outing_id: outings.get(wholeOuting) ?? 0, roll_id: rollId, whole: 1 });
      let development: KnownFrame['development'] = null;
      if (random() < 0.6) {
        const made = {
          process: pick(['c41', 'bw']),
          date: pick(SPANS),
          push: pick([0, 1, -1]),
          temperature: maybe([37.7, 38, 38.3, 20]),
          used: maybe([0, 516, 1032]),
          bath: pick(['Tray one', 'Tray two']),
        };
        development = made;
        const developmentId = add('development', {
          process: made.process,
          state: 'done',
          ...span('date', made.date),
          push_stops: made.push,
          developer_temp_c: made.temperature,
          developer_nominal_temp_c: 38,
          developer_bath_id: baths.get(made.bath) ?? null,
          developer_used_before_cm2: made.used,
          created_at: NOW,
        });
        add('development_roll', { development_id: developmentId, roll_id: rollId });
      } else if (random() < 0.3) {
        // A plan is no development yet and must not be found as one.
        const planned = add('development', { process: 'ecn2', state: 'planned', created_at: NOW });
        add('development_roll', { development_id: planned, roll_id: rollId });
      }
      const binder = maybe(['Binder A', 'Green binder']);
      let stripId: number | null = null;
      page += 1;
      if (binder !== null) {
        const pageId = add('page', { binder_id: binders.get(binder) ?? 0, number: page, layout_id: 'x' });
        stripId = add('strip', { roll_id: rollId, ordinal: 1, page_id: pageId, row: 1, position: 1 });
      }
      for (let ordinal = 1; ordinal <= 6; ordinal += 1) {
        const known: KnownFrame = {
          roll: number,
          rollAt: at,
          label: `${ordinal}A`,
          ordinal,
          title,
          stock: stock?.name ?? null,
          maker: stock?.maker ?? null,
          iso: stock?.iso ?? null,
          stockProcess: stock?.process ?? null,
          ei,
          camera,
          lens: maybe(LENSES),
          format,
          state,
          expires,
          caption: maybe(CAPTIONS),
          place: maybe(PLACES),
          tags: TAGS.filter(() => random() < 0.3),
          own: maybe(SPANS),
          outing: random() < 0.2 ? pick(OUTINGS) : wholeOuting,
          development,
          binder: binder === null ? null : binder,
          page: binder === null ? null : page,
          mark: maybe(MARKS),
          fault: maybe(FAULTS),
          scan: maybe([
            { kind: 'jpeg', width: 3000, bytes: 2_000_000 },
            { kind: 'tiff', width: 6000, bytes: 96_500_000 },
          ]),
        };
        frames.push(known);
        const frameId = add('frame', {
          roll_id: rollId,
          ordinal,
          label: known.label,
          lens_id: known.lens === null ? null : (lenses.get(known.lens) ?? null),
          caption: known.caption,
          place: known.place,
          outing_id: known.outing === wholeOuting ? null : (outings.get(known.outing) ?? null),
          ...span('taken', known.own),
          strip_id: stripId,
          strip_position: stripId === null ? null : ordinal,
        });
        for (const tag of known.tags) add('frame_tag', { tag_id: tags.get(tag) ?? 0, frame_id: frameId });
        if (known.mark !== null) add('pencil_mark', { frame_id: frameId, kind: known.mark, made_at: NOW });
        if (known.fault !== null) add('fault', { frame_id: frameId, kind: known.fault });
        if (known.scan !== null) {
          const name = `${number}_${ordinal}`;
          const scanId = add('scan', {
            root_id: root, path: name, path_compare: name, size_bytes: known.scan.bytes, modified_ns: '0',
            sha256: name, kind: known.scan.kind, state: 'complete', width: known.scan.width, height: 2000,
            found_at: NOW, checked_at: NOW,
          }); // prettier-ignore
          add('frame_scan', { frame_id: frameId, scan_id: scanId, confidence: 1, reason: 'named so' });
        }
      }
    }
  })();
  archive.close();
  return { folder, frames };
}
