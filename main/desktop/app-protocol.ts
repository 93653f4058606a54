import { protocol } from 'electron';
import { readFile } from 'node:fs/promises';
import { parsePreviewPath } from '../../shared/api/preview-url.ts';
import { parseMadePath, type MadeFiles } from '../host/made-files.ts';
import { SECURITY_HEADERS } from '../host/security-headers.ts';
import { contentTypeOf, findStaticFile } from '../host/static-files.ts';
import type { EngineProcess } from './engine-process.ts';

/** The window's own scheme and host. Not `file:`, so that a page has an origin of its own and no way to the disk. */
export const APP_ORIGIN = 'edgeprint://app';
const SCHEME = 'edgeprint';

/** Has to be called before the app is ready. */
export function declareAppScheme(): void {
  protocol.registerSchemesAsPrivileged([
    { scheme: SCHEME, privileges: { standard: true, secure: true, supportFetchAPI: true, stream: true } },
  ]);
}

export interface AppProtocolParts {
  readonly staticFolder: string;
  readonly engine: EngineProcess;
  readonly made: MadeFiles;
  onBug(error: unknown, reference: string): void;
}

/** Answers the window's requests: its own files, previews by id and made files by id. */
export function serveAppScheme(parts: AppProtocolParts): void {
  protocol.handle(SCHEME, async (request) => {
    const url = new URL(request.url);
    if (url.host !== 'app') return answer(404, 'There is nothing here.');
    if (request.method !== 'GET') return answer(405, 'There is nothing here to send to.');
    try {
      const file = await findFile(parts, url.pathname);
      if (file === null) return answer(404, 'There is nothing here.');
      return answer(200, await readFile(file), contentTypeOf(file));
    } catch (error) {
      parts.onBug(error, 'app-protocol');
      return answer(500, 'This was not answered.');
    }
  });
}

async function findFile(
  { staticFolder, engine, made }: AppProtocolParts,
  path: string,
): Promise<string | null> {
  const preview = parsePreviewPath(path);
  if (preview) return engine.previewFile(preview.pictureId, preview.size);
  const fileId = parseMadePath(path);
  return fileId === null ? findStaticFile(staticFolder, path) : made.find(fileId);
}

function answer(
  status: number,
  body: string | Uint8Array<ArrayBuffer>,
  contentType = 'text/plain; charset=utf-8',
): Response {
  return new Response(body, {
    status,
    headers: { ...SECURITY_HEADERS, 'content-type': contentType, 'cache-control': 'no-cache' },
  });
}
