const READ = new Set(['jpg', 'jpeg', 'jpe', 'jfif', 'tif', 'tiff', 'btf', 'tf8', 'dng', 'png', 'webp']);
// Pictures all the same: their absence from a roll must not be silent. "Common practice, no source".
const OTHER_KINDS = new Set([
  'heic', 'heif', 'avif', 'jp2', 'j2k', 'jxl', 'psd', 'psb', 'gif', 'bmp', 'exr', 'fff', 'cr2', 'cr3', 'nef', 'arw',
  'raf', 'rw2', 'orf', 'pef', '3fr', 'iiq', 'nrw', 'srw', 'x3f', 'raw',
]); // prettier-ignore

/** What a file's name says about it being a picture; `unknown` where it has no ending. */
export function pictureByName(name: string): 'yes' | 'other kind of picture' | 'no' | 'unknown' {
  const dot = name.lastIndexOf('.');
  if (dot <= 0 || dot === name.length - 1) return 'unknown';
  const ending = name.slice(dot + 1).toLowerCase();
  if (READ.has(ending)) return 'yes';
  return OTHER_KINDS.has(ending) ? 'other kind of picture' : 'no';
}
