import { createReadStream } from 'node:fs';
import { stat } from 'node:fs/promises';
import type { IncomingMessage, ServerResponse } from 'node:http';
import { pipeline } from 'node:stream/promises';
import { contentTypeOf } from '../host/static-files.ts';

/** Answers with a few words and nothing else. */
export function sendText(response: ServerResponse, status: number, text: string): void {
  response.writeHead(status, { 'content-type': 'text/plain; charset=utf-8' });
  response.end(`${text}\n`);
}

/**
 * Answers with a file of ours, or with 304 when the browser has it as it is. `caching` is the value of
 * cache-control.
 */
export async function sendFile(
  request: IncomingMessage,
  response: ServerResponse,
  path: string,
  caching: string,
): Promise<void> {
  const { size, mtimeMs } = await stat(path);
  const tag = `"${size.toString(36)}-${Math.round(mtimeMs).toString(36)}"`;
  response.setHeader('etag', tag);
  response.setHeader('cache-control', caching);
  if (request.headers['if-none-match'] === tag) {
    response.writeHead(304).end();
    return;
  }
  response.writeHead(200, { 'content-type': contentTypeOf(path), 'content-length': size });
  if (request.method === 'HEAD') response.end();
  else await pipeline(createReadStream(path), response);
}
