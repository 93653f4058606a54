import type { DrawnFrame } from '../../../renderer/film/drawn-frame.ts';
import type { LyingStrip } from '../../../renderer/film/lying-strip.ts';
import type { LayoutRow } from '../../../shared/api/methods/filing-methods.ts';
import { findPageLayout } from '../../../shared/domain/filing/page-layout.ts';

/** A layout of the table as the engine gives it. */
export function layoutNamed(id: string): LayoutRow {
  const layout = findPageLayout(id, []);
  if (!layout) throw new Error(`No layout ${id}`);
  const { source, ...row } = layout;
  return {
    ...row,
    filmFormats: [...row.filmFormats],
    name: `${row.name}${source.kind === 'yours' ? ' (own)' : ''}`,
  };
}

/** A frame with nothing on it but its label. */
export function bareFrame(id: number, change: Partial<DrawnFrame> = {}): DrawnFrame {
  return {
    id,
    label: String(id),
    frameFormat: '24x36',
    picture: null,
    marks: [],
    faults: [],
    caption: null,
    scans: 0,
    ...change,
  };
}

/** A strip of 35 mm film at the beginning of a row, with the frames of those ids. */
export function stripOf(id: number, row: number, frameIds: readonly number[]): LyingStrip {
  return {
    id,
    roll: '2026-001',
    filmFormat: '135',
    row,
    position: 1,
    frames: frameIds.map((frameId) => bareFrame(frameId)),
    edgeTexts: ['Fenn 200'],
  };
}
