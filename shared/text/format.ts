import type { ProcessKind } from '../api/values.ts';

/** The processes as people write them. */
export const PROCESS_NAMES: Readonly<Record<ProcessKind, string>> = {
  c41: 'C-41',
  bw: 'black-and-white',
  e6: 'E-6',
  ecn2: 'ECN-2',
  other: 'another process',
};

/** A temperature in °C to a tenth: `37.8 °C`. */
export function formatTemperature(celsius: number): string {
  return `${celsius.toFixed(1).replace('-', '−')} °C`;
}
