import { Menu, type MenuItemConstructorOptions } from 'electron';
import type { MenuCommand } from '../../shared/api/host-contract.ts';

export interface MenuParts {
  /** Asks the window in front to do something. */
  send(command: MenuCommand): void;
  newWindow(): void;
  readonly mac: boolean;
}

/**
 * The menu of the app, with the shortcuts that the platform's users expect. Undo and Find are the page's own keys:
 * it knows whether text is being written, so the menu only shows them.
 */
export function buildMenu({ send, newWindow, mac }: MenuParts): Menu {
  const item = (label: string, command: MenuCommand, accelerator?: string): MenuItemConstructorOptions => ({
    label,
    click: () => send(command),
    ...(accelerator === undefined ? {} : { accelerator }),
  });
  const shown = (label: string, command: MenuCommand, accelerator: string): MenuItemConstructorOptions => ({
    ...item(label, command, accelerator),
    registerAccelerator: false,
  });
  const separator: MenuItemConstructorOptions = { type: 'separator' };

  return Menu.buildFromTemplate([
    ...(mac ? [{ role: 'appMenu' } satisfies MenuItemConstructorOptions] : []),
    {
      label: '&Archive',
      submenu: [
        item('New Archive…', 'new archive', 'CmdOrCtrl+N'),
        item('Open Archive…', 'open archive', 'CmdOrCtrl+O'),
        item('Back Up…', 'back up archive'),
        item('Close Archive', 'close archive'),
        separator,
        { label: 'New Window', accelerator: 'CmdOrCtrl+Shift+N', click: newWindow },
        { role: 'close' },
        ...(mac ? [] : [separator, { role: 'quit' } satisfies MenuItemConstructorOptions]),
      ],
    },
    {
      label: '&Edit',
      submenu: [
        shown('Undo', 'undo', 'CmdOrCtrl+Z'),
        shown('Redo', 'redo', mac ? 'Cmd+Shift+Z' : 'Ctrl+Y'),
        separator,
        { role: 'cut' },
        { role: 'copy' },
        { role: 'paste' },
        { role: 'selectAll' },
        separator,
        shown('Find', 'find', 'CmdOrCtrl+F'),
      ],
    },
    {
      label: '&View',
      submenu: [
        item('Dark', 'dark'),
        item('Light', 'light'),
        item('Deep Red', 'red'),
        separator,
        { role: 'zoomIn' },
        { role: 'zoomOut' },
        { role: 'resetZoom' },
        separator,
        { role: 'togglefullscreen' },
      ],
    },
    { role: 'windowMenu' },
  ]);
}
