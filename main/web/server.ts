import { randomBytes } from 'node:crypto';
import { once } from 'node:events';
import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import { homedir } from 'node:os';
import type { Duplex } from 'node:stream';
import { WebSocketServer } from 'ws';
import { MESSAGE_LIMIT_BYTES } from '../../shared/api/json-value.ts';
import { parsePreviewPath, type PreviewSize } from '../../shared/api/preview-url.ts';
import { serve, type ServeOptions, type Service } from '../../shared/api/rpc.ts';
import { createMadeFiles, parseMadePath, type MadeFiles } from '../host/made-files.ts';
import { runProgram } from '../host/print-queue.ts';
import { createRecentArchives, followOpenArchive } from '../host/recent-archives.ts';
import { SECURITY_HEADERS } from '../host/security-headers.ts';
import { findStaticFile } from '../host/static-files.ts';
import { webSocketTransport } from '../transport/web-socket.ts';
import { sendFile, sendText } from './send-file.ts';
import { createSession, type Session } from './session-token.ts';
import { createWebHostService } from './web-host-service.ts';

/** What the host needs of the engine. */
export interface HostedEngine extends Service {
  previewFile(pictureId: string, size: PreviewSize): Promise<string | null>;
}

export interface WebHostOptions {
  readonly engine: HostedEngine;
  /** The folder of the built window. */
  readonly staticFolder: string;
  /** Where the list of recent archives is kept. */
  readonly recentFile: string;
  readonly version: string;
  /** 0 or nothing: any free port. */
  readonly port?: number;
  /** Where made files and dialogs start. */
  readonly documentsFolder?: string;
  /** Told of bugs. */
  onBug(error: unknown, reference: string): void;
  /** Called when the user asks the program to end. */
  onQuit(): void;
}

/** A running host. */
export interface WebHost {
  /** The address with its token, to be opened once. */
  readonly url: string;
  readonly origin: string;
  /** Ends connections and the server; the engine is its owner's to close. */
  close(): Promise<void>;
}

const ADDRESS = '127.0.0.1';

/**
 * Serves the window, the wire, previews and made files on this machine alone.
 * @throws an ordinary Error when the port is taken
 */
export async function startWebHost(options: WebHostOptions): Promise<WebHost> {
  const server = createServer();
  server.listen(options.port ?? 0, ADDRESS);
  await once(server, 'listening');
  const listening = server.address();
  if (listening === null || typeof listening === 'string') throw new Error('The server has no port');

  const own = `${ADDRESS}:${listening.port}`;
  const session = createSession(listening.port);
  const made = createMadeFiles();
  const recent = createRecentArchives(options.recentFile);
  const unfollow = followOpenArchive(options.engine, recent, options.onBug);
  const host = createWebHostService({
    version: options.version,
    documentsFolder: options.documentsFolder ?? homedir(),
    made,
    recent,
    run: runProgram,
    quit: options.onQuit,
  });
  const serveOptions: ServeOptions = {
    newReference: () => randomBytes(4).toString('hex'),
    onBug: options.onBug,
  };

  const parts = { ...options, own, session, made, serveOptions };
  server.on('request', (request, response) => {
    answer(parts, request, response).catch((error: unknown) => fail(parts, response, error));
  });

  const sockets = new WebSocketServer({ noServer: true, maxPayload: MESSAGE_LIMIT_BYTES });
  server.on('upgrade', (request: IncomingMessage, socket: Duplex, head: Buffer) => {
    const service = wireService(request.url, options.engine, host);
    // A browser always names its origin here; whoever does not is no page of ours.
    const known = request.headers.origin === `http://${own}` && isFromUs(parts, request);
    if (!service || !known || !session.hasCookie(request)) {
      socket.end('HTTP/1.1 403 Forbidden\r\nconnection: close\r\ncontent-length: 0\r\n\r\n');
      return;
    }
    sockets.handleUpgrade(request, socket, head, (webSocket) => {
      serve(webSocketTransport(webSocket), service, serveOptions);
    });
  });

  return {
    url: `http://${own}/?token=${session.token}`,
    origin: `http://${own}`,
    async close() {
      unfollow();
      for (const socket of sockets.clients) socket.terminate();
      server.closeAllConnections();
      server.close();
      await once(server, 'close');
      made.close();
    },
  };
}

interface Parts extends WebHostOptions {
  readonly own: string;
  readonly session: Session;
  readonly made: MadeFiles;
  readonly serveOptions: ServeOptions;
}

/** The address asked for, read as a path of this host whatever it looks like (`//name/` is no other host). */
function readUrl({ own }: Parts, request: IncomingMessage): URL {
  const path = request.url ?? '/';
  return new URL(`http://${own}${path.startsWith('/') ? path : '/nowhere'}`);
}

function wireService(url: string | undefined, engine: Service, host: Service): Service | null {
  if (url === '/wire/engine') return engine;
  return url === '/wire/host' ? host : null;
}

/** Whether the request names this host and comes from no other page: against other sites and rebound names. */
function isFromUs({ own }: Parts, request: IncomingMessage): boolean {
  const { host, origin } = request.headers;
  const site = request.headers['sec-fetch-site'] ?? 'none';
  return (
    host === own &&
    (origin === undefined || origin === `http://${own}`) &&
    (site === 'none' || site === 'same-origin')
  );
}

async function answer(parts: Parts, request: IncomingMessage, response: ServerResponse): Promise<void> {
  const { session, made, engine, staticFolder } = parts;
  for (const [name, value] of Object.entries(SECURITY_HEADERS)) response.setHeader(name, value);
  const url = readUrl(parts, request);
  const token = url.searchParams.get('token');

  // The first address may be clicked in a terminal or a mail, so here the page it comes from does not count.
  if (
    url.pathname === '/' &&
    token !== null &&
    request.headers.host === parts.own &&
    session.isToken(token)
  ) {
    // The token leaves the address at once, so that no history or bookmark keeps it.
    response.writeHead(303, {
      location: '/',
      'set-cookie': session.cookieHeader(),
      'cache-control': 'no-store',
    });
    response.end();
    return;
  }
  if (!isFromUs(parts, request) || !session.hasCookie(request)) {
    sendText(
      response,
      403,
      'Open the address that Edgeprint wrote when it started; it carries this session’s key.',
    );
    return;
  }
  if (request.method !== 'GET' && request.method !== 'HEAD') {
    // Whatever body came along is not read; the connection goes with it.
    response.setHeader('connection', 'close');
    sendText(response, 405, 'There is nothing here to send to.');
    return;
  }

  const preview = parsePreviewPath(url.pathname);
  const fileId = parseMadePath(url.pathname);
  let file: string | null;
  let caching = 'private, no-cache';
  if (preview) file = await engine.previewFile(preview.pictureId, preview.size);
  else if (fileId !== null) {
    file = made.find(fileId);
    caching = 'no-store';
    if (file !== null && url.searchParams.has('download'))
      response.setHeader('content-disposition', 'attachment');
  } else {
    file = findStaticFile(staticFolder, url.pathname);
    // The builder names files of this folder after what is in them.
    if (url.pathname.startsWith('/assets/')) caching = 'private, max-age=31536000, immutable';
  }
  if (file === null) sendText(response, 404, 'There is nothing here.');
  else await sendFile(request, response, file, caching);
}

function fail(parts: Parts, response: ServerResponse, error: unknown): void {
  const reference = parts.serveOptions.newReference();
  if (!response.destroyed) parts.onBug(error, reference);
  if (response.headersSent) {
    response.destroy();
    return;
  }
  sendText(response, 500, `This was not answered. Reference ${reference}.`);
}
