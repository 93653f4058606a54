import { existsSync } from 'node:fs';
import { appError } from '../../shared/api/errors.ts';
import type { Capabilities, HOST_METHODS, Printed } from '../../shared/api/host-contract.ts';
import type { Answers } from '../../shared/api/rpc.ts';
import type { MadeFiles } from './made-files.ts';
import { listPrinters, printAtTrueSize, type RunProgram } from './print-queue.ts';
import type { RecentArchives } from './recent-archives.ts';

type HostAnswers = Answers<typeof HOST_METHODS>;

/** What both shells answer alike, made of what they own. */
export interface HostParts {
  readonly shell: 'desktop' | 'web';
  readonly version: string;
  readonly documentsFolder: string;
  readonly dialogs: boolean;
  readonly reveal: boolean;
  readonly made: MadeFiles;
  readonly recent: RecentArchives;
  readonly run: RunProgram;
  /** What is done with a PDF that no print queue took. */
  showPdf(path: string, address: string): Promise<Printed>;
}

type SharedAnswers = Pick<
  HostAnswers,
  | 'host.capabilities'
  | 'host.reserveFile'
  | 'host.receivePicture'
  | 'host.printPdf'
  | 'host.recentArchives'
  | 'host.forgetArchive'
>;

/** The answers that do not depend on which shell it is. */
export function sharedHostAnswers(parts: HostParts): SharedAnswers {
  return {
    'host.capabilities': async () => ({
      shell: parts.shell,
      version: parts.version,
      platform: platformOf(process.platform),
      dialogs: parts.dialogs,
      reveal: parts.reveal,
      documentsFolder: parts.documentsFolder,
      printers: await listPrinters(parts.run),
    }),
    'host.reserveFile': ({ name }) => parts.made.reserve(name),
    'host.receivePicture': ({ name, fileId, base64 }) =>
      parts.made.receive(name, fileId, Buffer.from(base64, 'base64')),
    'host.printPdf': async ({ fileId, printer }) => {
      const path = parts.made.find(fileId);
      if (path === null || !path.endsWith('.pdf')) throw appError('file_missing', { path: path ?? fileId });
      const sent = await printAtTrueSize(parts.run, path, printer);
      if (sent) return { how: 'queue', ...sent };
      return parts.showPdf(path, parts.made.addressOf(fileId));
    },
    'host.recentArchives': () => parts.recent.list(),
    'host.forgetArchive': ({ folder }) => {
      parts.recent.forget(folder);
      return {};
    },
  };
}

/** The system a window runs on, as far as its keys and words differ. */
export function platformOf(platform: string): Capabilities['platform'] {
  if (platform === 'darwin') return 'mac';
  return platform === 'win32' ? 'windows' : 'linux';
}

/** The addresses behind the names of the outside links; nothing else outside is ever opened. */
export const OUTSIDE_ADDRESSES = {
  edtf: 'https://www.loc.gov/standards/datetime/',
  licences: 'https://openfontlicense.org/',
} as const;

/** @throws {AppError} file_missing when there is no such file */
export function needFile(path: string): string {
  if (!existsSync(path)) throw appError('file_missing', { path });
  return path;
}
