import { nativeTheme, shell, type BrowserWindow } from 'electron';
import { HOST_METHODS, type Appearance, type HostEvent } from '../../shared/api/host-contract.ts';
import { answerFrom, type Service } from '../../shared/api/rpc.ts';
import { needFile, OUTSIDE_ADDRESSES, sharedHostAnswers, type HostParts } from '../host/host-answers.ts';
import { chooseFile, chooseFileToWrite, chooseFolder } from './dialogs.ts';

/** The desk of each ground, for the moments in which the page is not drawn. */
const DESKS: Readonly<Record<Appearance, string>> = { dark: '#1b1b1b', light: '#c6c6c6', red: '#060000' };

export interface DesktopHostParts extends Pick<
  HostParts,
  'version' | 'documentsFolder' | 'made' | 'recent' | 'run'
> {
  readonly window: BrowserWindow;
  readonly checkOutputs: boolean;
  restartEngine(): void;
  quit(): void;
  /** Tells the page what the menu or the engine has to say. */
  onEvent(listener: (event: HostEvent) => void): () => void;
}

/** What the desktop shell answers of the host contract, for one window. */
export function createDesktopHostService(parts: DesktopHostParts): Service {
  const { window } = parts;
  const shared = sharedHostAnswers({
    ...parts,
    shell: 'desktop',
    dialogs: true,
    reveal: true,
    showPdf: async (path) => {
      const failure = await shell.openPath(path);
      if (failure !== '') throw new Error(`The system could not show the PDF: ${failure}`);
      return { how: 'viewer' };
    },
  });
  const call = answerFrom(
    HOST_METHODS,
    {
      ...shared,
      'host.chooseFolder': async ({ title, startIn }) => ({
        path: await chooseFolder(window, title, startIn),
      }),
      'host.chooseFile': async ({ title, kinds }) => ({ path: await chooseFile(window, title, kinds) }),
      'host.chooseFileToWrite': async ({ title, suggestedName, kinds }) => ({
        path: await chooseFileToWrite(window, title, suggestedName, kinds),
      }),
      'host.revealFile': ({ path }) => {
        shell.showItemInFolder(needFile(path));
        return {};
      },
      'host.openOutside': async ({ link }) => {
        await shell.openExternal(OUTSIDE_ADDRESSES[link]);
        return { address: null };
      },
      'host.setAppearance': ({ appearance }) => {
        nativeTheme.themeSource = appearance === 'light' ? 'light' : 'dark';
        window.setBackgroundColor(DESKS[appearance]);
        return {};
      },
      'host.restartEngine': () => {
        parts.restartEngine();
        return {};
      },
      'host.quit': () => {
        parts.quit();
        return {};
      },
    },
    parts.checkOutputs,
  );
  return { call, onEvent: (listener) => parts.onEvent(listener) };
}
