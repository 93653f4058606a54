/** Why a name is not a scan's: shown in the folded list of what was passed over. */
export type LitterReason =
  'hidden' | 'resource fork' | 'system file' | 'thumbnail folder' | 'half a copy' | 'left by an editor';

// "Common practice, no source": names that desktops, network storage, browsers and copy programs leave behind.
const SYSTEM_FILES = new Set(['thumbs.db', 'ehthumbs.db', 'desktop.ini', 'folder.jpg:encryptable', 'icon\r']);
const LITTER_FOLDERS = new Set([
  '@eadir',
  '#recycle',
  '$recycle.bin',
  'system volume information',
  '__macosx',
  'lost+found',
]);
const HALF_COPY = /\.(?:part|partial|tmp|temp|crdownload|download|filepart|!ut|opdownload)$/i;

/** Why a file or folder with this name is passed over, or null. */
export function findLitter(name: string, isFolder: boolean): LitterReason | null {
  const folded = name.toLowerCase();
  if (isFolder && LITTER_FOLDERS.has(folded)) return 'thumbnail folder';
  if (!isFolder && name.startsWith('._')) return 'resource fork';
  if (name.startsWith('.')) return 'hidden';
  if (isFolder) return null;
  if (SYSTEM_FILES.has(folded)) return 'system file';
  if (HALF_COPY.test(name)) return 'half a copy';
  if (name.startsWith('~') || name.endsWith('~')) return 'left by an editor';
  return null;
}

/**
 * Whether the content, by its first bytes, is a resource fork kept in a file of its own, whatever its name.
 * Source: RFC 1740 appendix B: AppleSingle 0x00051600, AppleDouble 0x00051607.
 */
export function isResourceFork(head: Buffer): boolean {
  if (head.length < 4) return false;
  const magic = head.readUInt32BE(0);
  return magic === 0x00051607 || magic === 0x00051600;
}
