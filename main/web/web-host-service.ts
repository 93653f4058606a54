import { appError } from '../../shared/api/errors.ts';
import { HOST_METHODS } from '../../shared/api/host-contract.ts';
import { answerFrom, type Service } from '../../shared/api/rpc.ts';
import { OUTSIDE_ADDRESSES, sharedHostAnswers, type HostParts } from '../host/host-answers.ts';

/** What the web host answers of the host contract: it has no dialogs and leaves a PDF to the browser. */
export function createWebHostService(
  parts: Pick<HostParts, 'version' | 'documentsFolder' | 'made' | 'recent' | 'run'> & { quit(): void },
): Service {
  const shared = sharedHostAnswers({
    ...parts,
    shell: 'web',
    dialogs: false,
    reveal: false,
    showPdf: async (_path, address) => ({ how: 'browser', address }),
  });
  const call = answerFrom(
    HOST_METHODS,
    {
      ...shared,
      'host.chooseFolder': () => ({ path: null }),
      'host.chooseFile': () => ({ path: null }),
      'host.chooseFileToWrite': () => ({ path: null }),
      'host.revealFile': ({ path }) => {
        throw appError('file_unreadable', { path, reason: 'a browser cannot show it in its folder' });
      },
      'host.openOutside': ({ link }) => ({ address: OUTSIDE_ADDRESSES[link] }),
      'host.setAppearance': () => ({}),
      'host.restartEngine': () => ({}),
      'host.quit': () => {
        parts.quit();
        return {};
      },
    },
    true,
  );
  return { call, onEvent: () => () => {} };
}
