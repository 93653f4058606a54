import { once } from 'node:events';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { request } from 'node:http';
import { connect as connectSocket } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { WebSocket } from 'ws';
import { HOST_METHODS, hostEvent } from '../../../shared/api/host-contract.ts';
import { connect } from '../../../shared/api/rpc.ts';
import { webSocketTransport } from '../../../main/transport/web-socket.ts';
import { startWebHost, type WebHost } from '../../../main/web/server.ts';
import { makeTestService, TEST_METHODS, testEvent } from '../../contract/test-methods.ts';

/** One answer of the server, asked for with headers of our own, which `fetch` would not send. */
interface Answer {
  readonly status: number;
  readonly headers: Readonly<Record<string, unknown>>;
  readonly text: string;
}

let folder: string;
let host: WebHost;
let cookie: string;
let quits = 0;
const bugs: unknown[] = [];

function ask(
  path: string,
  headers: Record<string, string> = {},
  method = 'GET',
  body?: Buffer,
): Promise<Answer> {
  const { hostname, port } = new URL(host.origin);
  return new Promise((resolve, reject) => {
    const sent = request(
      { agent: false, hostname, port, path, method, headers: { cookie, ...headers } },
      (response) => {
        const chunks: Buffer[] = [];
        response.on('data', (chunk: Buffer) => chunks.push(chunk));
        response.on('end', () =>
          resolve({
            status: response.statusCode ?? 0,
            headers: response.headers,
            text: Buffer.concat(chunks).toString(),
          }),
        );
      },
    );
    sent.on('error', reject);
    sent.end(body);
  });
}

/** The status with which a request for a WebSocket is answered. */
function upgradeStatus(path: string, headers: Record<string, string>): Promise<number> {
  const { hostname, port } = new URL(host.origin);
  return new Promise((resolve, reject) => {
    const sent = request({
      hostname,
      port,
      path,
      headers: {
        connection: 'Upgrade',
        upgrade: 'websocket',
        'sec-websocket-version': '13',
        'sec-websocket-key': 'dGhlIHNhbXBsZSBub25jZQ==',
        ...headers,
      },
    });
    sent.on('upgrade', (response, socket) => {
      socket.destroy();
      resolve(response.statusCode ?? 0);
    });
    sent.on('response', (response) => resolve(response.statusCode ?? 0));
    sent.on('error', reject);
    sent.end();
  });
}

function openWire(path: string): WebSocket {
  return new WebSocket(`${host.origin.replace('http', 'ws')}${path}`, {
    headers: { cookie, origin: host.origin },
  });
}

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'edgeprint-test-'));
  mkdirSync(join(folder, 'window', 'assets'), { recursive: true });
  mkdirSync(join(folder, 'window-beside'));
  writeFileSync(join(folder, 'window', 'index.html'), '<!doctype html><title>Edgeprint</title>');
  writeFileSync(join(folder, 'window', 'assets', 'main.js'), 'start()');
  writeFileSync(join(folder, 'window-beside', 'secret.txt'), 'secret');
  writeFileSync(join(folder, 'archive.sqlite'), 'secret');
  symlinkSync(join(folder, 'archive.sqlite'), join(folder, 'window', 'link.txt'));
  writeFileSync(join(folder, 'preview.jpg'), 'picture');
  host = await startWebHost({
    engine: {
      ...makeTestService(),
      previewFile: async (id, size) =>
        id === 'a1-0' && size === 'small' ? join(folder, 'preview.jpg') : null,
    },
    staticFolder: join(folder, 'window'),
    recentFile: join(folder, 'recent.json'),
    version: '0.0.0',
    onBug: (error) => bugs.push(error),
    onQuit: () => {
      quits += 1;
    },
  });
  const login = await ask(host.url.slice(host.origin.length), { cookie: '' });
  cookie = String(login.headers['set-cookie']).split(';')[0] ?? '';
});

afterAll(async () => {
  await host.close();
  rmSync(folder, { recursive: true });
});

describe('letting in', () => {
  it('listens on the loopback address alone', () => {
    expect(new URL(host.url).hostname).toBe('127.0.0.1');
  });

  it('trades the token for a cookie no script can read, and takes it out of the address', async () => {
    const login = await ask(host.url.slice(host.origin.length), { cookie: '' });
    expect(login.status).toBe(303);
    expect(login.headers.location).toBe('/');
    expect(String(login.headers['set-cookie'])).toMatch(/; Path=\/; HttpOnly; SameSite=Strict$/);
  });

  it('serves the window to whoever has the cookie', async () => {
    expect(await ask('/')).toMatchObject({ status: 200, text: '<!doctype html><title>Edgeprint</title>' });
  });

  it.each([
    ['no cookie', {}, '/'],
    ['a wrong token', {}, '/?token=abc'],
    ['a wrong cookie', { cookie: 'edgeprint_1=abc' }, '/'],
  ])('refuses %s', async (_what, headers, path) => {
    expect((await ask(path, { cookie: '', ...headers })).status).toBe(403);
  });

  it.each([
    ['another host name', { host: 'edgeprint.example' }],
    ['localhost by name', { host: 'localhost' }],
    ['another origin', { origin: 'https://example.org' }],
    ['the null origin', { origin: 'null' }],
    ['a request that another site started', { 'sec-fetch-site': 'cross-site' }],
    ['a request that another port started', { 'sec-fetch-site': 'same-site' }],
  ])('refuses %s even with the cookie', async (_what, headers) => {
    expect((await ask('/', headers)).status).toBe(403);
  });

  it('refuses the right token under another host name', async () => {
    const path = host.url.slice(host.origin.length);
    expect((await ask(path, { cookie: '', host: 'rebound.example' })).status).toBe(403);
  });

  it.each([
    ['no origin', '/wire/engine', {}],
    ['another origin', '/wire/engine', { origin: 'https://example.org' }],
    ['another wire', '/wire/other', { origin: 'own' }],
  ])('refuses a WebSocket with %s', async (_what, path, given) => {
    const headers = 'origin' in given && given.origin === 'own' ? { origin: host.origin } : given;
    expect(await upgradeStatus(path, { cookie, ...headers })).toBe(403);
  });

  it('refuses a WebSocket without the cookie', async () => {
    expect(await upgradeStatus('/wire/engine', { origin: host.origin })).toBe(403);
  });
});

describe('headers of every answer', () => {
  it.each(['/', '/assets/main.js', '/nowhere', '/preview/small/a1-0'])(
    '%s forbids all but our own',
    async (path) => {
      const { headers } = await ask(path);
      expect(String(headers['content-security-policy'])).toContain("default-src 'none'; script-src 'self';");
      expect(headers).toMatchObject({
        'x-content-type-options': 'nosniff',
        'referrer-policy': 'no-referrer',
      });
    },
  );

  it('allows neither inline nor evaluated scripts', async () => {
    expect(String((await ask('/')).headers['content-security-policy'])).not.toContain('unsafe');
  });
});

describe('files', () => {
  it.each([
    '/../archive.sqlite',
    '/%2e%2e/archive.sqlite',
    '/..%2farchive.sqlite',
    '/assets/..%2f..%2farchive.sqlite',
    '/../window-beside/secret.txt',
    '/..%2fwindow-beside/secret.txt',
    '/link.txt',
    '//archive.sqlite',
    '/%00',
    '/%',
    '/assets/',
    '/assets',
    '/..%5carchive.sqlite',
    '/preview/small/..%2f..%2farchive.sqlite',
    '/preview/small/none',
    '/made/00000000000000000000000000000000/a.pdf',
    '/made/..%2f..%2farchive.sqlite',
  ])('never serves %s', async (path) => {
    const { status, text } = await ask(path);
    expect([status, text]).toEqual([404, 'There is nothing here.\n']);
  });

  it('serves a preview by id', async () => {
    expect(await ask('/preview/small/a1-0')).toMatchObject({
      status: 200,
      text: 'picture',
      headers: { 'content-type': 'image/jpeg', 'content-length': '7' },
    });
  });

  it('answers 304 for what the browser has', async () => {
    const tag = String((await ask('/preview/small/a1-0')).headers.etag);
    expect((await ask('/preview/small/a1-0', { 'if-none-match': tag })).status).toBe(304);
  });

  it('survives a request that is no HTTP', async () => {
    const { hostname, port } = new URL(host.origin);
    const socket = connectSocket(Number(port), hostname);
    socket.resume();
    socket.end('nonsense\r\n\r\n');
    await once(socket, 'close');
    expect((await ask('/')).status).toBe(200);
  });
});

describe('made files and uploads', () => {
  async function hostClient() {
    const socket = openWire('/wire/host');
    await once(socket, 'open');
    return connect(webSocketTransport(socket), HOST_METHODS, hostEvent, true);
  }

  it('serves a file that was written to a reserved place', async () => {
    const client = await hostClient();
    const made = await client.call('host.reserveFile', { name: '2024-031 sheet.pdf' });
    expect((await ask(made.address)).status).toBe(404);
    writeFileSync(made.path, '%PDF-');
    expect(await ask(made.address)).toMatchObject({
      status: 200,
      text: '%PDF-',
      headers: { 'content-type': 'application/pdf' },
    });
    expect((await ask(`${made.address}?download`)).headers['content-disposition']).toBe('attachment');
  });

  it.each(['../../etc/passwd', '/etc/passwd', '..\\..\\boot.ini', '...', 'a\u0000b'])(
    'reserves no place outside its own folder for the name %j',
    async (name) => {
      const client = await hostClient();
      const made = await client.call('host.reserveFile', { name });
      expect(made.path.startsWith(join(tmpdir(), 'edgeprint-'))).toBe(true);
      expect(made.path).not.toContain('..');
    },
  );

  it('prints only what was reserved', async () => {
    const client = await hostClient();
    await expect(client.call('host.printPdf', { fileId: '../archive.sqlite' })).rejects.toMatchObject({
      code: 'file_missing',
    });
  });

  it('takes in a picture piece by piece', async () => {
    const client = await hostClient();
    const body = Buffer.alloc(100_000, 7);
    const name = 'from a phone.jpg';
    const [head, tail] = [body.subarray(0, 60_000), body.subarray(60_000)];
    const first = await client.call('host.receivePicture', {
      name,
      fileId: null,
      base64: head.toString('base64'),
    });
    const { fileId } = first;
    await client.call('host.receivePicture', { name, fileId, base64: tail.toString('base64') });
    expect(readFileSync(first.path)).toEqual(body);
    expect((await ask(first.address)).headers['content-length']).toBe('100000');
  });

  it('goes on only with a picture that was begun', async () => {
    const client = await hostClient();
    await expect(
      client.call('host.receivePicture', { name: 'a.jpg', fileId: '../../archive', base64: '' }),
    ).rejects.toMatchObject({ code: 'file_missing' });
  });

  it.each(['POST', 'PUT', 'DELETE', 'PATCH'])('takes nothing by %s', async (method) => {
    expect((await ask('/', { origin: host.origin }, method, Buffer.alloc(10))).status).toBe(405);
  });
});

describe('the wires', () => {
  it('carry calls to the engine', async () => {
    const socket = openWire('/wire/engine');
    const client = connect(webSocketTransport(socket), TEST_METHODS, testEvent, true);
    await once(socket, 'open');
    expect(await client.call('things.count', { name: 'n' })).toEqual({ from: 1, name: 'n' });
  });

  it('carry calls to the host, which says what it can', async () => {
    const socket = openWire('/wire/host');
    const client = connect(webSocketTransport(socket), HOST_METHODS, hostEvent, true);
    await once(socket, 'open');
    expect(await client.call('host.capabilities', {})).toMatchObject({
      shell: 'web',
      dialogs: false,
      reveal: false,
    });
    expect(await client.call('host.chooseFolder', { title: 'Folder' })).toEqual({ path: null });
    await client.call('host.quit', {});
    expect(quits).toBe(1);
  });

  it('report no bug in all of this', () => {
    expect(bugs).toEqual([]);
  });
});
