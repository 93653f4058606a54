import type { Frame, FrameChange } from '../../shared/api/methods/film-methods.ts';
import { parsePartialDate } from '../../shared/domain/date/partial-date.ts';
import { formatAperture, parseAperture } from '../../shared/domain/exposure/aperture.ts';
import { formatShutter, parseShutter } from '../../shared/domain/exposure/shutter.ts';
import { describeReason } from '../../shared/text/describe-reason.ts';

/** The facts of a frame that are written as text. */
export const TEXT_FIELDS = [
  'caption',
  'place',
  'taken',
  'shutter',
  'aperture',
  'lens',
  'filter',
  'note',
] as const;
export type TextField = (typeof TEXT_FIELDS)[number];

/** What happens to frames that differ: nothing; those without get the text; all get it; all lose theirs. */
export type Mode = 'keep' | 'gaps' | 'replace' | 'empty';

export interface TextEdit {
  readonly text: string;
  readonly mode: Mode;
}

/** What is wanted of the picked frames, as far as anything was touched. */
export interface FrameEdits {
  readonly texts: { readonly [Field in TextField]?: TextEdit };
  /** Names of tags, parted by commas. */
  readonly addTags: string;
  readonly removeTags: readonly string[];
  readonly addFault: { readonly kind: string; readonly edge: Frame['faults'][number]['edge'] } | null;
  readonly removeFaults: readonly string[];
  /** Undefined: as they are. */
  readonly outingId?: number | null;
}

/** Nothing is wanted yet. */
export const NO_EDITS: FrameEdits = {
  texts: {},
  addTags: '',
  removeTags: [],
  addFault: null,
  removeFaults: [],
};

/** What the picked frames have in a field: all the same text, or different ones, of which `filled` have any. */
export type Common =
  { readonly kind: 'same'; readonly text: string } | { readonly kind: 'mixed'; readonly filled: number };

/** A fact of a frame as text; nothing as an empty one. */
export function textOf(frame: Frame, field: TextField): string {
  if (field === 'taken') return frame.taken?.typed ?? '';
  if (field === 'aperture') return frame.aperture === null ? '' : formatAperture(frame.aperture);
  return frame[field] ?? '';
}

/** What the frames have in common in a field. */
export function commonText(frames: readonly Frame[], field: TextField): Common {
  const texts = frames.map((frame) => textOf(frame, field));
  const [first = ''] = texts;
  if (texts.every((text) => text === first)) return { kind: 'same', text: first };
  return { kind: 'mixed', filled: texts.filter((text) => text !== '').length };
}

type FieldChange = Pick<FrameChange, TextField>;
type ReadText =
  { readonly ok: true; readonly change: FieldChange } | { readonly ok: false; readonly problem: string };

/** Reads what was typed into a field. */
export function readText(field: TextField, typed: string): ReadText {
  const text = typed.trim();
  if (text === '') return { ok: true, change: { [field]: null } };
  if (field === 'taken') {
    const date = parsePartialDate(text);
    return date.ok
      ? { ok: true, change: { taken: text } }
      : { ok: false, problem: asSentence(describeReason(date.reason)) };
  }
  if (field === 'aperture') {
    const aperture = parseAperture(text);
    return aperture.ok
      ? { ok: true, change: { aperture: aperture.value } }
      : { ok: false, problem: 'An aperture is such as f/5.6, from 0.5 to 1000.' };
  }
  if (field === 'shutter') {
    const shutter = parseShutter(text);
    if (shutter.ok) return { ok: true, change: { shutter: formatShutter(shutter.value) } };
    return { ok: false, problem: SHUTTER_PROBLEMS[shutter.reason] };
  }
  return { ok: true, change: { [field]: text } };
}

const SHUTTER_PROBLEMS = {
  shutter_unreadable: 'A time is such as 1/125, 0.5 s, 2 min, B or T.',
  shutter_unit_missing: 'Seconds, or a part of one? Write 125 s or 1/125.',
  shutter_out_of_range: 'A time is from 1/100000 to a day.',
} as const;

/** The engine's words as a sentence of their own. */
export function asSentence(words: string): string {
  return `${words.charAt(0).toUpperCase()}${words.slice(1)}.`;
}

/** One change and the frames that get it. */
export interface FrameChangeGroup {
  readonly ids: readonly number[];
  readonly change: FrameChange;
}

export interface FramePlan {
  /** Frames that get the same are in one group: where nothing is kept, there is one. */
  readonly groups: readonly FrameChangeGroup[];
  /** What is wrong, by field. Nothing is written while anything is. */
  readonly problems: { readonly [Field in TextField]?: string };
  /** The frames that a field of text will change. */
  readonly touched: { readonly [Field in TextField]?: readonly Frame[] };
  /** What will happen, in words: `2 captions, 7 places`; empty when nothing will. */
  readonly says: string;
}

/** Works out what the edits do to each of the frames. */
export function planFrameEdits(frames: readonly Frame[], edits: FrameEdits): FramePlan {
  const problems: Partial<Record<TextField, string>> = {};
  const touched: Partial<Record<TextField, Frame[]>> = {};
  const changes = new Map<number, FrameChange>(frames.map(({ id }) => [id, {}]));
  const add = (frame: Frame, part: FrameChange) => {
    changes.set(frame.id, { ...changes.get(frame.id), ...part });
  };
  for (const field of TEXT_FIELDS) {
    const edit = edits.texts[field];
    if (!edit || edit.mode === 'keep') continue;
    const read = readText(field, edit.mode === 'empty' ? '' : edit.text);
    if (!read.ok) {
      problems[field] = read.problem;
      continue;
    }
    if (edit.mode !== 'empty' && edit.text.trim() === '' && commonText(frames, field).kind === 'mixed')
      continue;
    const written = writtenText(field, read.change);
    for (const frame of frames) {
      const before = textOf(frame, field);
      if (before === written || (edit.mode === 'gaps' && before !== '')) continue;
      add(frame, read.change);
      touched[field] = [...(touched[field] ?? []), frame];
    }
  }
  let tagged = 0;
  let faulty = 0;
  let moved = 0;
  for (const frame of frames) {
    const tags = tagChange(frame, edits);
    if (tags) add(frame, tags);
    const faults = faultChange(frame, edits);
    if (faults) add(frame, { faults });
    const goes = edits.outingId !== undefined && edits.outingId !== (frame.outing?.id ?? null);
    if (goes) add(frame, { outingId: edits.outingId });
    tagged += tags ? 1 : 0;
    faulty += faults ? 1 : 0;
    moved += goes ? 1 : 0;
  }
  const parts = [
    ...TEXT_FIELDS.map((field) => part(touched[field]?.length ?? 0, FIELD_WORDS[field])),
    part(moved, ['outing', 'outings']),
    part(tagged, ['frame’s tags', 'frames’ tags']),
    part(faulty, ['frame’s faults', 'frames’ faults']),
  ];
  return { groups: groupEqual(changes), problems, touched, says: parts.filter(Boolean).join(', ') };
}

const FIELD_WORDS: Readonly<Record<TextField, readonly [string, string]>> = {
  caption: ['caption', 'captions'],
  place: ['place', 'places'],
  taken: ['date', 'dates'],
  shutter: ['exposure time', 'exposure times'],
  aperture: ['aperture', 'apertures'],
  lens: ['lens', 'lenses'],
  filter: ['filter', 'filters'],
  note: ['note', 'notes'],
};

function part(many: number, [one, more]: readonly [string, string]): string {
  return many === 0 ? '' : `${many} ${many === 1 ? one : more}`;
}

function writtenText(field: TextField, change: FieldChange): string {
  const value = change[field];
  if (value === null || value === undefined) return '';
  return typeof value === 'number' ? formatAperture(value) : value;
}

/** The tags that are named in a text. */
export function readTags(text: string): readonly string[] {
  return [...new Set(text.split(',').map((name) => name.trim()))].filter((name) => name !== '');
}

function tagChange(frame: Frame, edits: FrameEdits): FrameChange | null {
  const addTags = readTags(edits.addTags).filter((name) => !frame.tags.includes(name));
  const removeTags = edits.removeTags.filter((name) => frame.tags.includes(name));
  if (addTags.length + removeTags.length === 0) return null;
  return {
    ...(addTags.length > 0 ? { addTags } : {}),
    ...(removeTags.length > 0 ? { removeTags } : {}),
  };
}

function faultChange(frame: Frame, edits: FrameEdits): Frame['faults'] | null {
  const { addFault } = edits;
  const kept = frame.faults.filter(({ kind }) => !edits.removeFaults.includes(kind));
  const there = kept.some((fault) => fault.kind === addFault?.kind && fault.edge === addFault.edge);
  const added = addFault === null || there ? [] : [{ ...addFault, fromEdgeMm: null, note: null }];
  if (kept.length === frame.faults.length && added.length === 0) return null;
  return [...kept, ...added];
}

function groupEqual(changes: ReadonlyMap<number, FrameChange>): readonly FrameChangeGroup[] {
  const groups = new Map<string, { ids: number[]; change: FrameChange }>();
  for (const [id, change] of changes) {
    if (Object.keys(change).length === 0) continue;
    const key = JSON.stringify(change);
    const group = groups.get(key) ?? { ids: [], change };
    group.ids.push(id);
    groups.set(key, group);
  }
  return [...groups.values()];
}
