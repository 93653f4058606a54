import { existsSync, realpathSync, statSync } from 'node:fs';
import { extname, resolve, sep } from 'node:path';

const CONTENT_TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.jpg': 'image/jpeg',
  '.tif': 'image/tiff',
  '.pdf': 'application/pdf',
  '.woff2': 'font/woff2',
  '.wasm': 'application/wasm',
};

/** The content type of a file by its ending. */
export function contentTypeOf(file: string): string {
  return CONTENT_TYPES[extname(file).toLowerCase()] ?? 'application/octet-stream';
}

/**
 * The file under `root` that the path of an address names; null when there is none or it lies outside. The root
 * itself gives `index.html`. `urlPath` is as it stands in the address, percent signs included.
 */
export function findStaticFile(root: string, urlPath: string): string | null {
  const path = decode(urlPath);
  if (path === null || path.includes('\0') || path.includes('\\')) return null;
  const wanted = resolve(root, `.${path === '/' ? '/index.html' : path}`);
  if (!existsSync(wanted) || !statSync(wanted).isFile()) return null;
  // Compared after links are followed, and with the separator: /app-other must not pass for /app.
  const real = realpathSync(wanted);
  return real.startsWith(realpathSync(root) + sep) ? real : null;
}

function decode(text: string): string | null {
  try {
    return decodeURIComponent(text);
  } catch {
    // Broken percent signs name no file.
    return null;
  }
}
