import { normalizeFrameLabel } from './frame-label.ts';

/** One reading of a frame address; `frame` is a normal label, or null when the whole text names a roll. */
export interface FrameAddress {
  readonly roll: string;
  readonly frame: string | null;
}

/**
 * Every reading of an address such as `2026-001/12A`, the likeliest first; the caller takes the first whose roll
 * exists. Order: split at the last slash; the whole text as a roll (`C-123/A07` is somebody's roll); split at the
 * last blank, hyphen, colon, full stop or underscore (`2024-031-12A`). A part that is no frame label is never split off.
 */
export function splitFrameAddress(text: string): readonly FrameAddress[] {
  const whole = text.normalize('NFC').trim();
  const addresses = [
    splitAt(whole, /^(.+)\/([^/]+)$/su),
    { roll: whole, frame: null },
    splitAt(whole, /^(.+)[-\s:._]([^-\s:._]+)$/su),
  ];
  return addresses.filter((address) => address !== null).filter((address) => address.roll !== '');
}

function splitAt(text: string, pattern: RegExp): FrameAddress | null {
  const [, roll, frame] = pattern.exec(text) ?? [];
  if (roll === undefined || frame === undefined) return null;
  const label = normalizeFrameLabel(frame);
  return label.ok ? { roll: roll.trim(), frame: label.value } : null;
}
