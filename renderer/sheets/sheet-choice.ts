import { sheetSpec, type SheetSpec } from '../../shared/sheet/sheet-spec.ts';

type Params = Readonly<Record<string, string>>;

/** Names of the choices in an address. Those of rolls and binders are not among them. */
const NAMES = {
  paperId: 'paper',
  customMm: 'custom',
  orientation: 'lying',
  marginMm: 'margin',
  look: 'look',
  scale: 'scale',
  trim: 'trim',
  sheets: 'sheets',
  captions: 'captions',
  pencilMarks: 'marks',
  ruler: 'ruler',
  heading: 'heading',
  title: 'title',
} as const satisfies Record<keyof SheetSpec, string>;

const PLAIN = sheetSpec.parse({});

/** The choices for a sheet that an address holds; what it does not say, or says wrong, is as usual. */
export function readSpec(params: Params, usualPaper: string): SheetSpec {
  let spec: SheetSpec = { ...PLAIN, paperId: usualPaper };
  for (const [field, name] of Object.entries(NAMES)) {
    const text = params[name];
    if (text === undefined) continue;
    const read = sheetSpec.safeParse({ ...spec, [field]: readValue(field, text) });
    if (read.success) spec = read.data;
  }
  return spec;
}

function readValue(field: string, text: string): unknown {
  if (field === 'title') return text;
  if (field === 'customMm') {
    const [widthMm, heightMm] = text.split('x').map(Number);
    return { widthMm, heightMm };
  }
  if (text === 'yes' || text === 'no') return text === 'yes';
  if (field === 'marginMm' || (field === 'scale' && text !== 'fit')) return Number(text);
  return text;
}

/** The choices as address parts; null for each that is as usual. */
export function writeSpec(spec: SheetSpec, usualPaper: string): Record<string, string | null> {
  const usual: SheetSpec = { ...PLAIN, paperId: usualPaper };
  return Object.fromEntries(
    Object.entries(NAMES).map(([field, name]) => {
      const [value, plain] = [Reflect.get(spec, field), Reflect.get(usual, field)];
      return [name, value === plain || value === null ? null : writeValue(value)];
    }),
  );
}

function writeValue(value: unknown): string {
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (typeof value === 'object' && value !== null) {
    return `${Reflect.get(value, 'widthMm')}x${Reflect.get(value, 'heightMm')}`;
  }
  return String(value);
}

/** The rolls an address names, by id, each once. */
export function readRollIds(params: Params): readonly number[] {
  const ids = `${params['rolls'] ?? ''},${params['roll'] ?? ''}`.split(',').map(Number);
  return [...new Set(ids.filter((id) => Number.isInteger(id) && id > 0))];
}

/** A scale in words: `true size`, `150 %`, `as large as fits`. */
export function describeScaleChoice(scale: SheetSpec['scale']): string {
  if (scale === 'fit') return 'as large as fits';
  return scale === 1 ? 'true size' : `${Math.round(scale * 1000) / 10} %`;
}

/** What is wrong with a scale in per cent as typed, or the scale. `150`, `150 %`, `66.7`. */
export function readScale(text: string): number | null {
  const percent = Number(text.replace('%', '').replace(',', '.').trim());
  const read = sheetSpec.shape.scale.safeParse(percent / 100);
  return text.trim() !== '' && read.success && typeof read.data === 'number' ? read.data : null;
}
