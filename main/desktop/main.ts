import { app, BrowserWindow, Menu } from 'electron';
import { randomBytes } from 'node:crypto';
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type { HostEvent } from '../../shared/api/host-contract.ts';
import { serve } from '../../shared/api/rpc.ts';
import { toWireError } from '../../shared/api/wire.ts';
import { createMadeFiles } from '../host/made-files.ts';
import { runProgram } from '../host/print-queue.ts';
import { createRecentArchives, followOpenArchive } from '../host/recent-archives.ts';
import { declareAppScheme, serveAppScheme } from './app-protocol.ts';
import { createDesktopHostService } from './desktop-host-service.ts';
import { startEngineProcess } from './engine-process.ts';
import { buildMenu } from './menu.ts';
import { findPlaces } from './places.ts';
import { windowTransport } from './window-transport.ts';
import { lockSession, openWindow } from './window.ts';

function logBug(error: unknown, reference: string): void {
  process.stderr.write(
    `${reference} ${error instanceof Error ? (error.stack ?? error.message) : String(error)}\n`,
  );
}

/** The whole of the shell, in the order in which it comes to life. */
function run(): void {
  const places = findPlaces(app.getAppPath(), process.resourcesPath, app.isPackaged, process.platform);
  const settings = app.getPath('userData');
  mkdirSync(settings, { recursive: true });
  lockSession();

  const engine = startEngineProcess({
    nodePath: places.node,
    entry: places.engineEntry,
    onFailure: (reference, how) => logBug(`The engine ${how}`, reference),
  });
  const made = createMadeFiles();
  const recent = createRecentArchives(join(settings, 'recent-archives.json'));
  followOpenArchive(engine.service, recent, logBug);
  serveAppScheme({ staticFolder: places.renderer, engine, made, onBug: logBug });

  const serveOptions = { newReference: () => randomBytes(4).toString('hex'), onBug: logBug };
  const listeners = new Map<BrowserWindow, Set<(event: HostEvent) => void>>();
  function tell(window: BrowserWindow | null | undefined, event: HostEvent): void {
    for (const listener of (window && listeners.get(window)) ?? []) listener(event);
  }
  engine.onState((state) => {
    for (const window of listeners.keys()) tell(window, { type: 'engine', state });
  });

  /** Joins a freshly loaded page to engine and shell; gives what parts them again. */
  function joinPage(window: BrowserWindow): () => void {
    const mine = new Set<(event: HostEvent) => void>();
    listeners.set(window, mine);
    const doors = {
      engine: windowTransport(window.webContents, 'engine'),
      host: windowTransport(window.webContents, 'host'),
    };
    const offFailed = engine.onFailed((error) =>
      doors.engine.send({ kind: 'engine-failed', error: toWireError(error, '', false) }),
    );
    doors.engine.onClose(offFailed);
    serve(doors.engine, engine.service, serveOptions);
    const host = createDesktopHostService({
      window,
      version: app.getVersion(),
      documentsFolder: app.getPath('documents'),
      made,
      recent,
      run: runProgram,
      checkOutputs: !app.isPackaged,
      restartEngine: engine.restart,
      quit: () => app.quit(),
      onEvent(listener) {
        mine.add(listener);
        return () => void mine.delete(listener);
      },
    });
    serve(doors.host, host, serveOptions);
    return () => {
      doors.engine.close();
      doors.host.close();
    };
  }

  function newWindow(): void {
    const window = openWindow({
      preload: places.preload,
      placeFile: join(settings, 'window.json'),
      onLoad: joinPage,
    });
    window.on('closed', () => listeners.delete(window));
  }

  const mac = process.platform === 'darwin';
  const send = (command: Extract<HostEvent, { type: 'menu' }>['command']) =>
    tell(BrowserWindow.getFocusedWindow(), { type: 'menu', command });
  Menu.setApplicationMenu(buildMenu({ send, newWindow, mac }));
  newWindow();

  app.on('second-instance', () => {
    const [window] = BrowserWindow.getAllWindows();
    if (window?.isMinimized() === true) window.restore();
    window?.focus();
  });
  app.on('activate', () => {
    if (BrowserWindow.getAllWindows().length === 0) newWindow();
  });
  app.on('window-all-closed', () => {
    if (!mac) app.quit();
  });
  let ended = false;
  app.on('will-quit', (event) => {
    if (ended) return;
    // The archive is closed in order before the process goes.
    event.preventDefault();
    made.close();
    void engine.close().finally(() => {
      ended = true;
      app.quit();
    });
  });
}

if (app.requestSingleInstanceLock()) {
  // As root there is no sandbox to be had; such a start says so itself with the switch, or does not come up.
  if (!app.commandLine.hasSwitch('no-sandbox')) app.enableSandbox();
  declareAppScheme();
  void app.whenReady().then(run);
} else {
  app.quit();
}
