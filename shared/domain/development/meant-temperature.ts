/** What a C-41 developer is meant to have, °C. Source: Kodak Z-131, Table 4-1 (37.8 ± 0.15 °C). */
export const C41_DEVELOPER_C = 37.8;

/**
 * The temperature that a developer is meant to have, °C: as planned, else the published one of C-41; null for other
 * processes, which have none of their own.
 */
export function meantTemperature(plannedC: number | null, process: string | null): number | null {
  return plannedC ?? (process === 'c41' ? C41_DEVELOPER_C : null);
}
