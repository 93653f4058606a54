/**
 * Additive exposure arithmetic (APEX): every value is a logarithm to base 2, one unit is one stop.
 * Source: Kerr, "APEX, the additive system of photographic exposure", issue 7, pdfslide.us/documents/apexpdf.html;
 * speedylook.com/APEX_(photography).html. Ev = Av + Tv = Bv + Sv.
 */

/** Film speed whose speed value is 0: ISO 100 has 5, and 100 / 2⁵ = 3.125. */
const ISO_AT_ZERO = 100 / 2 ** 5;

/** Reflected-light meter constant K for luminance in cd/m². Source: Kerr, as above. */
const METER_CONSTANT = 11.4;

/** Relation of luminance, film speed and meter constant in Bv = log₂(B / (0.3 K)). Source: Kerr, as above. */
const LUMINANCE_FACTOR = 0.3;

function log2Of(value: number, name: string): number {
  if (!(value > 0 && Number.isFinite(value))) {
    throw new RangeError(`${name} must be above zero, not ${String(value)}`);
  }
  return Math.log2(value);
}

/** Av = 2 log₂ N. `fNumber` > 0; take the exact number (`exactFNumber`), not the mark on the ring. */
export function apertureValue(fNumber: number): number {
  return 2 * log2Of(fNumber, 'f-number');
}

/** Tv = −log₂ t. `seconds` > 0. */
export function timeValue(seconds: number): number {
  return -log2Of(seconds, 'exposure time');
}

/** Sv = log₂(S / 3.125): 5 at ISO 100. `iso` > 0. */
export function speedValue(iso: number): number {
  return log2Of(iso / ISO_AT_ZERO, 'film speed');
}

/** Bv = log₂(B / (0.3 K)), K = 11.4. `candelasPerM2` > 0. */
export function brightnessValue(candelasPerM2: number): number {
  return log2Of(candelasPerM2 / (LUMINANCE_FACTOR * METER_CONSTANT), 'luminance');
}

/** Ev = Av + Tv of an aperture and a time. */
export function exposureValue(fNumber: number, seconds: number): number {
  return apertureValue(fNumber) + timeValue(seconds);
}

/** The exposure value that the same light asks for at ISO 100: what an exposure says about the light. */
export function exposureValueAt100(fNumber: number, seconds: number, iso: number): number {
  return exposureValue(fNumber, seconds) - (speedValue(iso) - speedValue(100));
}

/** f-number of an aperture value: N = 2^(Av/2). */
export function fNumberFromApertureValue(value: number): number {
  return 2 ** (value / 2);
}

/** Seconds of a time value: t = 2^(−Tv). */
export function secondsFromTimeValue(value: number): number {
  return 2 ** -value;
}
