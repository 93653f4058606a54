import './keys.css';

/** How the keys of a shortcut are written: `Ctrl Enter`, one word a key; `Mod` is the platform's main one. */
export interface KeysProps {
  readonly keys: string;
}

const MAC_NAMES: Readonly<Record<string, string>> = {
  Mod: '⌘',
  Ctrl: '⌃',
  Alt: '⌥',
  Shift: '⇧',
  Enter: '↩',
  Esc: 'esc',
};

/** Whether this window runs on a Mac, where keys have other names. */
function isMac(): boolean {
  return /mac/i.test(navigator.userAgent);
}

/** The keys as this platform calls them. */
export function nameKeys(keys: string, mac: boolean): string {
  const names = keys.split(' ').map((key) => (mac ? (MAC_NAMES[key] ?? key) : key === 'Mod' ? 'Ctrl' : key));
  return names.join(mac ? '' : ' ');
}

/** The keys that do the same as what they stand beside. */
export function Keys({ keys }: KeysProps) {
  return <kbd className="keys">{nameKeys(keys, isMac())}</kbd>;
}
