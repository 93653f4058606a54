import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

/** What of a machine decides where a user's files go. */
export interface Machine {
  readonly platform: string;
  readonly home: string;
  readonly environment: Readonly<Record<string, string | undefined>>;
}

/**
 * Where the program keeps what belongs to no archive, such as the list of recent ones.
 * Source: the same places as Electron's `userData`, so that desktop and web host share them (Electron
 * documentation, app.getPath); on Linux the XDG Base Directory Specification 0.8.
 */
export function settingsFolder({ platform, home, environment }: Machine): string {
  if (platform === 'darwin') return join(home, 'Library', 'Application Support', 'Edgeprint');
  if (platform === 'win32') return join(environment.APPDATA ?? join(home, 'AppData', 'Roaming'), 'Edgeprint');
  return join(environment.XDG_CONFIG_HOME ?? join(home, '.config'), 'Edgeprint');
}

/** The user's folder for documents where there is one, else the home folder. */
export function documentsFolder({ platform, home, environment }: Machine): string {
  const named = platform === 'linux' ? namedDocuments(home, environment.XDG_CONFIG_HOME) : null;
  const folder = named ?? join(home, 'Documents');
  return existsSync(folder) ? folder : home;
}

/** Source: freedesktop.org, xdg-user-dirs: `XDG_DOCUMENTS_DIR="$HOME/…"` in user-dirs.dirs. */
function namedDocuments(home: string, configHome: string | undefined): string | null {
  const file = join(configHome ?? join(home, '.config'), 'user-dirs.dirs');
  if (!existsSync(file)) return null;
  const match = /^XDG_DOCUMENTS_DIR="(.+)"$/m.exec(readFileSync(file, 'utf8'));
  return match?.[1]?.replace(/^\$HOME/, home) ?? null;
}
