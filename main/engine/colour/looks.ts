import { createHash } from 'node:crypto';
import { adjust as adjustSchema } from '../../../shared/api/methods/colour-methods.ts';
import { type Adjust, isUnadjusted, UNADJUSTED } from '../../../shared/domain/colour/look.ts';

/** What is kept of a look: as JSON in a column, null where the user set none. */
export function lookFromColumn(json: string | null): Adjust | null {
  return json === null ? null : adjustSchema.parse(JSON.parse(json));
}

/** The adjustment that a frame is shown with: its own, else its roll's, else none. */
export function adjustOfFrame(rollLook: string | null, frameLook: string | null): Adjust {
  return lookFromColumn(frameLook ?? rollLook) ?? UNADJUSTED;
}

/** What was kept of a roll's measuring that names its renderings. */
export interface RenderedKey {
  /** Null for a roll that was never measured: it is shown as scanned. */
  readonly key: string | null;
  /** Null where the plain rendering is the picture as scanned. */
  readonly shown: string | null;
}

/**
 * The name of the rendering that a picture is shown in, 16 hexadecimal digits; null for the picture as scanned. Another
 * rendering has another name, so what is kept of a picture under a name never goes out of date.
 */
export function shownName({ key, shown }: RenderedKey, adjust: Adjust): string | null {
  if (key === null) return null;
  return isUnadjusted(adjust) ? shown : nameOf([key, adjust.brightnessStops, adjust.contrast, adjust.grey]);
}

/** A short name for a value: 16 hexadecimal digits of its checksum. */
export function nameOf(value: unknown): string {
  return createHash('sha256').update(JSON.stringify(value)).digest('hex').slice(0, 16);
}
