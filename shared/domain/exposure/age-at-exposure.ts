/** The days that a vague date can mean, `YYYY-MM-DD`; null where its end is open. */
type Days = { readonly earliest: string | null; readonly latest: string | null };

/** Years past its date that film had when it was exposed; below 0 when it was still in date. */
export type AgeAtExposure = { readonly leastYears: number; readonly mostYears: number };

const MS_PER_DAY = 86_400_000;

/** Mean year of the Julian calendar, days, as for the rule of thumb of expired film. */
const DAYS_PER_YEAR = 365.25;

function yearsBetween(from: string, to: string): number {
  return (Date.parse(`${to}T00:00:00Z`) - Date.parse(`${from}T00:00:00Z`)) / MS_PER_DAY / DAYS_PER_YEAR;
}

/**
 * How far past its date film was when it was exposed: at least and at most, which differ as far as either date is
 * vague. A month is in date to its last day. Null when an end of either date is open.
 */
export function findAgeAtExposure(expires: Days, exposed: Days): AgeAtExposure | null {
  const { earliest, latest } = expires;
  if (earliest === null || latest === null || exposed.earliest === null || exposed.latest === null)
    return null;
  return {
    leastYears: yearsBetween(latest, exposed.earliest),
    mostYears: yearsBetween(earliest, exposed.latest),
  };
}
