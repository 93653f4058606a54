/** How far a scan file can be trusted. Refused: whole, as far as one can tell, but of a layout that is not read. */
export type ScanState = 'complete' | 'damaged' | 'unfinished' | 'refused';

/** Why a scan is not complete. Unfinished: the file is shorter than it says. Damaged: what is there is wrong. */
export type ScanReason =
  | 'empty'
  | 'directory_not_written'
  | 'cut_off'
  | 'still_changing'
  | 'not_an_image'
  | 'companion_file'
  | 'directory_damaged'
  | 'pixels_damaged'
  | 'size_impossible'
  | 'old_style_jpeg'
  | 'sample_depth'
  | 'compression'
  | 'sensor_mosaic'
  | 'colour_layout'
  | 'too_large';

/** What is worth saying about a scan that can be used. */
export type ScanRemark =
  | 'page_loop'
  | 'page_chain_broken'
  | 'end_marker_missing'
  | 'odd_but_readable'
  | 'metadata_damaged'
  | 'profile_damaged'
  | 'profile_does_not_fit'
  | 'colours_approximate'
  | 'has_infrared'
  | 'extra_samples'
  | 'transparency_ignored'
  | 'linear'
  | 'shows_embedded_preview'
  | 'captions_differ'
  | 'scan_date_implausible'
  | 'capture_date_implausible'
  | 'capture_may_be_scan_date'
  | 'more_pages';

const STATES: Readonly<Record<ScanReason, Exclude<ScanState, 'complete'>>> = {
  empty: 'unfinished',
  directory_not_written: 'unfinished',
  cut_off: 'unfinished',
  still_changing: 'unfinished',
  not_an_image: 'damaged',
  directory_damaged: 'damaged',
  pixels_damaged: 'damaged',
  size_impossible: 'damaged',
  companion_file: 'refused',
  old_style_jpeg: 'refused',
  sample_depth: 'refused',
  compression: 'refused',
  sensor_mosaic: 'refused',
  colour_layout: 'refused',
  too_large: 'refused',
};

/** The state that a reason puts a scan into. */
export function stateFor(reason: ScanReason): Exclude<ScanState, 'complete'> {
  return STATES[reason];
}

const REASON_WORDS: Readonly<Record<ScanReason, string>> = {
  empty: 'The file is empty: the scanner has only created it.',
  directory_not_written:
    'The part that says where the picture lies is not there yet: the file is unfinished or cut off.',
  cut_off: 'The file ends before its picture does: it is unfinished or was cut off.',
  still_changing: 'The file changed while it was read: it is still being written.',
  not_an_image: 'This is not a picture of a kind that can be read, whatever its name says.',
  companion_file: 'This is a note a system keeps beside a file, not a picture.',
  directory_damaged: 'The part that says where the picture lies is damaged.',
  pixels_damaged: 'Part of the picture is damaged.',
  size_impossible: 'The file claims a picture far larger than it can hold.',
  old_style_jpeg: 'The picture is stored with old-style JPEG compression, which cannot be read here.',
  sample_depth: 'The picture has a number of bits per sample that cannot be read here.',
  compression: 'The picture is stored with a compression that cannot be read here.',
  sensor_mosaic: 'This is a camera’s raw sensor picture, which is not developed here.',
  colour_layout: 'The picture stores its colours in a way that cannot be read here.',
  too_large: 'The picture is larger than 1.5 gigapixels.',
};

const REMARK_WORDS: Readonly<Record<ScanRemark, string>> = {
  page_loop: 'Its list of pages runs in a circle; each page was taken once.',
  page_chain_broken: 'Its list of pages breaks off; the pages before that were taken.',
  end_marker_missing: 'The end mark is missing; the picture is complete.',
  odd_but_readable: 'The file bends the rules of its format; the picture can be read.',
  metadata_damaged: 'Its notes about the picture are damaged; the picture is fine.',
  profile_damaged: 'Its colour profile is damaged; sRGB was assumed.',
  profile_does_not_fit: 'Its colour profile is for another kind of picture and was left out.',
  colours_approximate: 'No profile for these inks: colours are approximate.',
  has_infrared: 'It holds an infrared picture as well, which is left out of the view.',
  extra_samples: 'It holds further channels, which are left out of the view.',
  transparency_ignored: 'It has transparency, which is ignored: scans are opaque.',
  linear: 'This looks like a raw linear scan: it is dark by design and is shown brightened.',
  shows_embedded_preview: 'The picture shown is the small preview in the file, not the scan.',
  captions_differ: 'Its captions differ from each other; all are kept.',
  scan_date_implausible: 'Its scan date is not plausible; the scanner’s clock may have been wrong.',
  capture_date_implausible: 'Its capture date is not plausible.',
  capture_may_be_scan_date: 'Capture date and scan date are equal; the capture date may be the scanner’s.',
  more_pages: 'It has more pages than are read.',
};

/** A reason in plain words. */
export function describeReason(reason: ScanReason): string {
  return REASON_WORDS[reason];
}

/** A remark in plain words. */
export function describeRemark(remark: ScanRemark): string {
  return REMARK_WORDS[remark];
}
