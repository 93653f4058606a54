import {
  compareFrameLabels,
  findLabelAfter,
  frameLabel,
  listLabelsFrom,
  parseFrameLabel,
} from '../frame/frame-label.ts';
import type { FrameLabel } from '../frame/frame-label.ts';
import { compareNatural } from '../numbering/natural-order.ts';
import { pageFrames, sliceFrames } from './file-frames.ts';
import type { NamedFile } from './read-names.ts';
import type { MapNote, MapQuestion, MappedFile, MappedFrame } from './scan-mapping.ts';

/** The proposal for files that hold several frames each, and what to ask. */
export interface StripMapping {
  readonly files: readonly MappedFile[];
  readonly questions: readonly MapQuestion[];
  readonly notes: readonly MapNote[];
}

/**
 * Proposes the frames of strip files. Labels of the name go on the pages one by one, or cut the picture into equal
 * slices; a strip of several pages without labels goes on behind the strip before it.
 */
export function mapStrips(files: readonly NamedFile[], firstLabel: string | null): StripMapping {
  if (files.length === 0) return { files: [], questions: [], notes: [] };
  const first = parseFrameLabel(firstLabel ?? '1');
  let next: FrameLabel = first.ok ? first.value : frameLabel(1);
  const inOrder = [...files].sort(
    (a, b) => (a.name.position ?? 0) - (b.name.position ?? 0) || compareNatural(a.file.path, b.file.path),
  );
  const mappedFiles = inOrder.map((named) => {
    const strip = mapStrip(named, next);
    const last = strip.frames
      .map((frame) => frame.label)
      .sort(compareFrameLabels)
      .at(-1);
    const read = parseFrameLabel(last ?? '');
    if (read.ok) next = findLabelAfter(read.value, 1) ?? next;
    return strip;
  });
  const open = mappedFiles.filter((file) => file.needsAnswer).map((file) => file.path);
  const question: MapQuestion = {
    kind: 'strip',
    text: 'Which frames are on these strips, and where does each begin?',
    paths: open,
    choices: [],
  };
  return { files: mappedFiles, questions: open.length > 0 ? [question] : [], notes: [] };
}

function mapStrip({ file, name }: NamedFile, next: FrameLabel): MappedFile {
  const pages = file.pages ?? 1;
  const about = (frames: readonly MappedFrame[], confidence: number, remark: string): MappedFile => ({
    path: file.path,
    frames,
    order: 0,
    version: name.version,
    roll: name.roll,
    reason: `${name.reason} ${remark}`,
    confidence: name.certainty === 'sure' ? confidence : Math.min(confidence, 0.6),
    needsAnswer: name.certainty === 'ask' || confidence < 0.7,
  });
  const { labels } = name;
  if (labels.length > 0 && pages === labels.length)
    return about(pageFrames(labels, pages), 0.9, 'One frame on each page.');
  if (labels.length > 0 && pages > 1) {
    return about(
      pageFrames(labels, pages),
      0.4,
      `The file has ${pages} pages, the name ${labels.length} frames.`,
    );
  }
  if (labels.length > 0) return about(sliceFrames(labels, file), 0.6, 'The picture cut into equal parts.');
  if (pages < 2) return about([], 0, 'It is one picture, so its frames have to be named.');
  const found = listLabelsFrom(next, pages);
  return about(pageFrames(found, pages), 0.5, `Its ${pages} pages go on from frame ${next.text}.`);
}
