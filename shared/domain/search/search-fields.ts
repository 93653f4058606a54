/** What the values of a field are. `order`: text that may also be a run in natural order. */
export type FieldKind = 'text' | 'order' | 'number' | 'date' | 'choice';

export type SearchField = {
  readonly name: string;
  /** Other names that may be typed. */
  readonly aliases: readonly string[];
  readonly kind: FieldKind;
  /** What it asks, for a builder and for the reading of a search: a noun. */
  readonly words: string;
  /** Stands behind numbers, with its blank. */
  readonly unit: string;
  readonly choices: readonly string[];
};

/** What a frame or its roll can have or lack. */
const THINGS = [
  'scan',
  'caption',
  'place',
  'date',
  'tag',
  'mark',
  'fault',
  'note',
  'stock',
  'camera',
  'lens',
  'expiry',
  'outing',
  'development',
  'page',
  'cast',
] as const;

const STATES = ['on hand', 'in camera', 'to develop', 'developed', 'filed'] as const;
const PROCESSES = ['c41', 'bw', 'e6', 'ecn2', 'other'] as const;
const MARKS = ['box', 'dot', 'stroke', 'crop'] as const;

const none: readonly string[] = [];

function field<Name extends string>(
  name: Name,
  kind: FieldKind,
  words: string,
  more: {
    readonly aliases?: readonly string[];
    readonly unit?: string;
    readonly choices?: readonly string[];
  } = {},
) {
  return {
    name,
    kind,
    words,
    aliases: more.aliases ?? none,
    unit: more.unit ?? '',
    choices: more.choices ?? none,
  };
}

/** Every field of the search language, in the order in which a builder offers them. */
export const SEARCH_FIELDS = [
  field('number', 'order', 'roll number', { aliases: ['roll'] }),
  field('title', 'text', 'roll title'),
  field('frame', 'text', 'frame label'),
  field('caption', 'text', 'caption'),
  field('place', 'text', 'place'),
  field('tag', 'text', 'tag', { aliases: ['tags'] }),
  field('note', 'text', 'note', { aliases: ['notes'] }),
  field('date', 'date', 'date taken', { aliases: ['taken'] }),
  field('outing', 'text', 'outing'),
  field('stock', 'text', 'stock', { aliases: ['film'] }),
  field('maker', 'text', 'maker of the stock'),
  field('iso', 'number', 'box speed', { unit: ' ISO' }),
  field('ei', 'number', 'exposure index'),
  field('expires', 'date', 'expiry', { aliases: ['expiry'] }),
  field('age', 'number', 'age past expiry when exposed', { unit: ' years' }),
  field('camera', 'text', 'camera'),
  field('lens', 'text', 'lens'),
  field('format', 'text', 'film format'),
  field('frame-format', 'text', 'frame format'),
  field('state', 'choice', 'state of the roll', { choices: STATES }),
  field('process', 'choice', 'process', { choices: PROCESSES }),
  field('developed', 'date', 'development date', { aliases: ['development'] }),
  field('push', 'number', 'push', { unit: ' stops' }),
  field('temperature', 'number', 'developer temperature', { unit: ' °C' }),
  field('off', 'number', 'developer temperature against nominal', { unit: ' °C' }),
  field('bath', 'text', 'bath'),
  field('used', 'number', 'film through the developer before', { unit: ' cm²' }),
  field('binder', 'text', 'binder'),
  field('page', 'number', 'page'),
  field('mark', 'choice', 'pencil mark', { aliases: ['marked'], choices: MARKS }),
  field('fault', 'text', 'fault', { aliases: ['faults'] }),
  field('kind', 'text', 'kind of scan'),
  field('pixels', 'number', 'longer side of the scan', { unit: ' pixels' }),
  field('megabytes', 'number', 'size of the scan', { unit: ' MB' }),
  field('cast', 'number', 'cast', { unit: ' a*b* steps' }),
  field('has', 'choice', 'has', { choices: THINGS }),
  field('no', 'choice', 'has no', { aliases: ['without'], choices: THINGS }),
] as const;

export type FieldName = (typeof SEARCH_FIELDS)[number]['name'];

const BY_NAME: ReadonlyMap<string, SearchField & { readonly name: FieldName }> = new Map(
  SEARCH_FIELDS.flatMap((each) => [each.name, ...each.aliases].map((name) => [name, each] as const)),
);

/** The field of a name or another name of it, in capitals or not; null when there is none. */
export function findField(name: string): (SearchField & { readonly name: FieldName }) | null {
  return BY_NAME.get(name.toLowerCase()) ?? null;
}

/** Every name under which a field can be typed. */
export const FIELD_NAMES: readonly string[] = [...BY_NAME.keys()];

/** The facts of a field. */
export function getField(name: FieldName): SearchField {
  const found = BY_NAME.get(name);
  if (!found) throw new Error(`No field ${name}`);
  return found;
}
