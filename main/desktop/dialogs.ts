import { dialog, type BrowserWindow, type FileFilter } from 'electron';

/** Kinds of file as the contract names them. */
interface FileKind {
  readonly name: string;
  readonly endings: readonly string[];
}

function filtersOf(kinds: readonly FileKind[]): FileFilter[] {
  return kinds.map(({ name, endings }) => ({ name, extensions: [...endings] }));
}

/** A folder of the user's choice, or null. New ones can be made in the dialog. */
export async function chooseFolder(
  window: BrowserWindow,
  title: string,
  startIn: string | null,
): Promise<string | null> {
  const { filePaths } = await dialog.showOpenDialog(window, {
    title,
    message: title,
    ...(startIn === null ? {} : { defaultPath: startIn }),
    properties: ['openDirectory', 'createDirectory'],
  });
  return filePaths[0] ?? null;
}

/** A file of the user's choice, or null. */
export async function chooseFile(
  window: BrowserWindow,
  title: string,
  kinds: readonly FileKind[],
): Promise<string | null> {
  const { filePaths } = await dialog.showOpenDialog(window, {
    title,
    message: title,
    filters: filtersOf(kinds),
    properties: ['openFile'],
  });
  return filePaths[0] ?? null;
}

/** Where a file is to be written, or null. The dialog asks before an existing one is named. */
export async function chooseFileToWrite(
  window: BrowserWindow,
  title: string,
  suggested: string,
  kinds: readonly FileKind[],
): Promise<string | null> {
  const { filePath } = await dialog.showSaveDialog(window, {
    title,
    message: title,
    defaultPath: suggested,
    filters: filtersOf(kinds),
  });
  return filePath === '' ? null : (filePath ?? null);
}
