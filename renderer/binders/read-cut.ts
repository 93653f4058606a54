import { accept, refuse, type Checked } from '../../shared/domain/checked.ts';

/** Strips as typed, `6 6 6 4` or `6,6,6,4` or `6×5 4`: frames in each; null for nothing typed. */
export function readCut(text: string): Checked<readonly number[] | null, 'cut_not_read'> {
  const parts = text
    .trim()
    .split(/[\s,;+]+/)
    .filter((part) => part !== '');
  if (parts.length === 0) return accept(null);
  const strips: number[] = [];
  for (const part of parts) {
    const [, frames, times = '1'] = /^(\d{1,3})(?:[x×*](\d{1,3}))?$/i.exec(part) ?? [];
    if (frames === undefined || Number(frames) < 1 || Number(times) < 1) return refuse('cut_not_read');
    for (let strip = 0; strip < Number(times); strip += 1) strips.push(Number(frames));
  }
  return strips.length > 200 ? refuse('cut_not_read') : accept(strips);
}

/** A cut as it is typed: `6 6 6 4`. */
export function formatCut(strips: readonly number[]): string {
  return strips.join(' ');
}
