import { MM_PER_INCH } from './length.ts';

/**
 * Millilitres per US fluid ounce, 29.5735295625: the US gallon is 231 cubic inches and 128 fluid ounces.
 * Source: NIST Handbook 44, appendix C (from memory, not looked up).
 */
export const ML_PER_US_FLUID_OUNCE = (231 * (MM_PER_INCH / 10) ** 3) / 128;

/** Millilitres to US fluid ounces. */
export function mlToUsFluidOunces(ml: number): number {
  return ml / ML_PER_US_FLUID_OUNCE;
}

/** US fluid ounces to millilitres. */
export function usFluidOuncesToMl(fluidOunces: number): number {
  return fluidOunces * ML_PER_US_FLUID_OUNCE;
}
