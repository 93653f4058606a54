const SECONDS_PER_MINUTE = 60;
const SECONDS_PER_HOUR = 60 * SECONDS_PER_MINUTE;

const CLOCK = /^(?:(?<hours>\d{1,3}):(?=\d\d:))?(?<minutes>\d{1,3}):(?<seconds>[0-5]\d)$/;

const WORDS =
  /^(?:(?<hours>\d+(?:[.,]\d+)?)\s*(?:h|hours?))?\s*(?:(?<minutes>\d+(?:[.,]\d+)?)\s*(?:m|min|minutes?|['′]))?\s*(?:(?<seconds>\d+(?:[.,]\d+)?)\s*(?:s|sec|seconds?|["″]))?$/i;

function toNumber(digits: string | undefined): number {
  return Number((digits ?? '0').replace(',', '.'));
}

/**
 * Reads a length of time in seconds: `3:15`, `0:45`, `1:02:03`, `90 s`, `6.5 min`, `3 min 15 s`, `3'15"`. Null when
 * it is none. A bare number is none, since it could be minutes or seconds; so is `1:75` or `1:75:00`.
 */
export function parseDuration(text: string): number | null {
  const trimmed = text.trim();
  const groups = CLOCK.exec(trimmed)?.groups ?? WORDS.exec(trimmed)?.groups;
  if (trimmed === '' || !groups) return null;
  const minutes = toNumber(groups['minutes']);
  if (groups['hours'] !== undefined && minutes >= SECONDS_PER_MINUTE) return null;
  return (
    toNumber(groups['hours']) * SECONDS_PER_HOUR + minutes * SECONDS_PER_MINUTE + toNumber(groups['seconds'])
  );
}

/**
 * A length of time as minutes and seconds, with hours from one hour on: `3:15`, `0:45`, `1:02:03`. Rounded to whole
 * seconds; below zero with a minus (U+2212) in front. `seconds` finite.
 */
export function formatDuration(seconds: number): string {
  const whole = Math.round(Math.abs(seconds));
  const sign = seconds < 0 && whole > 0 ? '−' : '';
  const two = (value: number) => String(value).padStart(2, '0');
  const hours = Math.floor(whole / SECONDS_PER_HOUR);
  const minutes = Math.floor((whole % SECONDS_PER_HOUR) / SECONDS_PER_MINUTE);
  const rest = two(whole % SECONDS_PER_MINUTE);
  return hours > 0 ? `${sign}${String(hours)}:${two(minutes)}:${rest}` : `${sign}${String(minutes)}:${rest}`;
}
