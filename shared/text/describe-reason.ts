import type { FrameRangeReason } from '../domain/frame/frame-range.ts';
import type { RollNumberReason, RollPatternReason } from '../domain/numbering/roll-number.ts';
import type { PartialDateReason } from '../domain/date/partial-date.ts';

/** Why a value a person gave cannot be taken. */
export type Reason = FrameRangeReason | RollNumberReason | RollPatternReason | PartialDateReason;

const WORDS: Readonly<Record<Reason, string>> = {
  label_empty: 'a frame label is needed',
  label_zeros: 'three zeros and more are no label; 0 and 00 are',
  label_too_high: 'labels end at 999',
  label_not_understood: 'a frame label is a number as printed on the film, such as 00, 0, 7 or 12A',
  range_backwards: 'the range runs backwards',
  range_letters_differ: 'a range is from whole to whole number, or from A to A',
  range_too_long: 'that is more frames than any roll has',
  frame_not_on_roll: 'the roll has no such frame',
  roll_number_empty: 'a roll number is needed',
  roll_number_not_printable: 'a roll number has only signs that can be printed, on one line',
  roll_number_too_long: 'a roll number has at most 40 signs',
  roll_number_slash_at_end: 'a roll number neither starts nor ends with a stroke',
  pattern_without_count: 'the pattern needs {n}, or every roll would get the same number',
  pattern_with_two_counts: 'the pattern may have {n} only once',
  pattern_field_unknown: 'in braces may stand year, yy, month, n or n:1 to n:9',
  date_empty: 'a date is needed, or nothing at all',
  date_too_long: 'that is too long for a date',
  date_not_understood: 'a date is such as 1998, 1998-07, 1998-07-12, summer 1998, about 1985 or before 1990',
  date_no_such_month: 'there is no such month',
  date_no_such_day: 'the month has no such day',
  date_year_unlikely: 'years from 1800 to 2199 are taken',
  date_ends_before_start: 'it ends before it starts',
  date_day_or_month: 'which is the day and which the month? Write 1998-12-07',
  date_year_too_short: 'which century? Write the year with four digits',
  date_decade_or_century: 'ten years or a hundred? Write 190X or 19XX',
  date_with_time: 'a date has no time of day',
};

/** Why a value cannot be taken, in words that follow the value. */
export function describeReason(reason: Reason): string {
  return WORDS[reason];
}
