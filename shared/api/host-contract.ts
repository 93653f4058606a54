import { z } from 'zod';
import { method, type MethodTable } from './method.ts';

const nothing = z.strictObject({});
const title = z.string().max(200);
const path = z.string().min(1).max(4096);
const chosen = z.strictObject({ path: z.string().nullable() });

/** Kinds of file a dialog offers: a name for people, and endings without their dot. */
const fileKind = z.strictObject({
  name: z.string().min(1).max(100),
  endings: z
    .array(z.string().regex(/^[a-z0-9]{1,10}$/))
    .min(1)
    .max(30),
});

/** The pages outside that the window may open, by name; the host knows their addresses. */
export const OUTSIDE_LINKS = ['edtf', 'licences'] as const;

/** The three grounds the window is drawn on. */
export const APPEARANCES = ['dark', 'light', 'red'] as const;
export type Appearance = (typeof APPEARANCES)[number];

/** What the menu of a shell asks the window to do. */
export const MENU_COMMANDS = [
  'new archive',
  'open archive',
  'back up archive',
  'close archive',
  'undo',
  'redo',
  'find',
  'dark',
  'light',
  'red',
] as const;
export type MenuCommand = (typeof MENU_COMMANDS)[number];

const recentArchive = z.strictObject({
  folder: z.string(),
  name: z.string(),
  openedAt: z.iso.datetime(),
  present: z.boolean(),
});
export type RecentArchive = z.output<typeof recentArchive>;

const capabilities = z.strictObject({
  shell: z.enum(['desktop', 'web']),
  version: z.string(),
  platform: z.enum(['linux', 'mac', 'windows']),
  /** Whether there are native dialogs; where not, the window asks for a path in a text field. */
  dialogs: z.boolean(),
  /** Whether a file can be shown in the system's file browser. */
  reveal: z.boolean(),
  /** Where a new archive and the sample would go, unless the user says otherwise. */
  documentsFolder: z.string(),
  printers: z.array(z.string()),
});
export type Capabilities = z.output<typeof capabilities>;

/**
 * How a sheet went to paper: to a print queue with scaling off; into the system's viewer or a browser tab, where
 * the user has to choose 100 % himself.
 */
const printed = z.discriminatedUnion('how', [
  z.strictObject({ how: z.literal('queue'), printer: z.string().nullable(), job: z.string() }),
  z.strictObject({ how: z.literal('viewer') }),
  z.strictObject({ how: z.literal('browser'), address: z.string() }),
]);
export type Printed = z.output<typeof printed>;

/** Characters of base64 in one piece of a picture: 3 MiB of bytes, well below what a message may weigh. */
export const PICTURE_PIECE_LIMIT = 4 * 1024 * 1024;

/** What only a shell can do. The window asks for nothing outside this table and the archive's own. */
export const HOST_METHODS = {
  'host.capabilities': method(nothing, capabilities),
  /** A folder, or null when the user thought better of it (or there are no dialogs). */
  'host.chooseFolder': method(z.strictObject({ title, startIn: path.nullable().default(null) }), chosen),
  'host.chooseFile': method(z.strictObject({ title, kinds: z.array(fileKind).max(10) }), chosen),
  'host.chooseFileToWrite': method(
    z.strictObject({ title, suggestedName: z.string().max(255), kinds: z.array(fileKind).max(10) }),
    chosen,
  ),
  'host.revealFile': method(z.strictObject({ path }), nothing),
  /** A place for a file that is made to be printed or downloaded; gone when the host ends. */
  'host.reserveFile': method(
    z.strictObject({ name: z.string().min(1).max(200) }),
    z.strictObject({ fileId: z.string(), path: z.string(), address: z.string() }),
  ),
  /**
   * Takes in a picture from the window piece by piece, as base64: the first piece without a `fileId`, the others
   * with the one that the first was given. The engine reads it from `path`.
   */
  'host.receivePicture': method(
    z.strictObject({
      name: z.string().min(1).max(200),
      fileId: z.string().max(100).nullable(),
      base64: z.base64().max(PICTURE_PIECE_LIMIT),
    }),
    z.strictObject({ fileId: z.string(), path: z.string(), address: z.string() }),
  ),
  /** Prints a PDF that was written to a reserved place, at 100 %. */
  'host.printPdf': method(
    z.strictObject({ fileId: z.string().max(100), printer: z.string().max(255).nullable().default(null) }),
    printed,
  ),
  /** Opens a page outside; where the host cannot, it gives the address for the window to open in a new tab. */
  'host.openOutside': method(
    z.strictObject({ link: z.enum(OUTSIDE_LINKS) }),
    z.strictObject({ address: z.string().nullable() }),
  ),
  'host.recentArchives': method(nothing, z.array(recentArchive)),
  'host.forgetArchive': method(z.strictObject({ folder: path }), nothing),
  'host.setAppearance': method(z.strictObject({ appearance: z.enum(APPEARANCES) }), nothing),
  'host.restartEngine': method(nothing, nothing),
  'host.quit': method(nothing, nothing),
} as const satisfies MethodTable;

/** What a shell tells by itself: a menu was used, or how the engine is. */
export const hostEvent = z.discriminatedUnion('type', [
  z.strictObject({ type: z.literal('menu'), command: z.enum(MENU_COMMANDS) }),
  z.strictObject({ type: z.literal('engine'), state: z.enum(['starting', 'running', 'failed']) }),
]);
export type HostEvent = z.output<typeof hostEvent>;

/** What the shell alone asks of an engine in another process, beside the contract; no window gets at it. */
export const PREVIEW_METHODS = {
  'previews.file': method(
    z.strictObject({ pictureId: z.string().max(200), size: z.enum(['small', 'large']) }),
    z.strictObject({ path: z.string().nullable() }),
  ),
} as const satisfies MethodTable;
