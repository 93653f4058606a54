import { BrowserWindow, screen, session, type Session, type WebContents } from 'electron';
import { APP_ORIGIN } from './app-protocol.ts';
import { firstWindowSize, readWindowPlace, writeWindowPlace } from './window-place.ts';

/** The desk of the dark ground, so that no white shows before the page does. */
const DESK = '#1b1b1b';

export interface WindowOptions {
  readonly preload: string;
  /** Where the place of the window is remembered. */
  readonly placeFile: string;
  /** Called for each load of the page, with what ends the connections of the load before. */
  readonly onLoad: (window: BrowserWindow) => () => void;
}

/** Opens a window on the page, locked to it. */
export function openWindow({ preload, placeFile, onLoad }: WindowOptions): BrowserWindow {
  const areas = screen.getAllDisplays().map((display) => display.workArea);
  const place = readWindowPlace(placeFile, areas);
  const window = new BrowserWindow({
    ...firstWindowSize(screen.getPrimaryDisplay().workArea),
    ...(place ? { x: place.x, y: place.y, width: place.width, height: place.height } : {}),
    minWidth: 480,
    minHeight: 360,
    show: false,
    backgroundColor: DESK,
    title: 'Edgeprint',
    webPreferences: {
      preload,
      sandbox: true,
      contextIsolation: true,
      nodeIntegration: false,
      webviewTag: false,
      spellcheck: false,
      // A run beside the tank goes on sounding its cues while another window lies over this one.
      backgroundThrottling: false,
    },
  });
  if (place?.maximised === true) window.maximize();
  lockToPage(window.webContents);

  let disconnect = onLoad(window);
  window.webContents.on('did-start-navigation', (details) => {
    if (!details.isMainFrame || details.isSameDocument) return;
    disconnect();
    disconnect = onLoad(window);
  });
  window.once('ready-to-show', () => window.show());
  window.on('close', () => {
    writeWindowPlace(placeFile, { ...window.getNormalBounds(), maximised: window.isMaximized() });
  });
  void window.loadURL(`${APP_ORIGIN}/`);
  return window;
}

/** No other page, no new window, no frame of another kind. */
function lockToPage(contents: WebContents): void {
  contents.setWindowOpenHandler(() => ({ action: 'deny' }));
  contents.on('will-navigate', (event) => {
    if (new URL(event.url).origin !== new URL(APP_ORIGIN).origin || !event.url.startsWith(`${APP_ORIGIN}/`)) {
      event.preventDefault();
    }
  });
  contents.on('will-attach-webview', (event) => event.preventDefault());
}

/** What the page may have of the system: to write to the clipboard and to keep the screen on; nothing else. */
const ALLOWED = ['clipboard-sanitized-write', 'screen-wake-lock'];

/** Denies every permission but the few above, and anything that does not come from our own scheme. */
export function lockSession(current: Session = session.defaultSession): void {
  current.setPermissionRequestHandler((_contents, permission, answer) =>
    answer(ALLOWED.includes(permission)),
  );
  current.setPermissionCheckHandler((_contents, permission) => ALLOWED.includes(permission));
  current.webRequest.onBeforeRequest((details, answer) => {
    const ours = details.url.startsWith(`${APP_ORIGIN}/`) || /^(blob|data|devtools):/.test(details.url);
    answer({ cancel: !ours });
  });
}
