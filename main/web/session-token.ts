import { randomBytes, timingSafeEqual } from 'node:crypto';
import type { IncomingMessage } from 'node:http';

/** Who may talk to this host: whoever opened the address with its token once. */
export interface Session {
  /** The token of the first address. */
  readonly token: string;
  isToken(given: string): boolean;
  /** The header that lets a browser in from now on. */
  cookieHeader(): string;
  hasCookie(request: IncomingMessage): boolean;
}

/** Makes a session with a fresh token and a fresh cookie; both end with the process. */
export function createSession(port: number): Session {
  const token = randomBytes(24).toString('base64url');
  const cookie = randomBytes(24).toString('base64url');
  // Cookies do not tell ports apart, so the port is in the name: two hosts must not log each other out.
  const name = `edgeprint_${port}`;
  return {
    token,
    isToken: (given) => isSame(given, token),
    cookieHeader: () => `${name}=${cookie}; Path=/; HttpOnly; SameSite=Strict`,
    hasCookie: (request) =>
      (request.headers.cookie ?? '')
        .split(';')
        .map((part) => part.trim())
        .some((part) => part.startsWith(`${name}=`) && isSame(part.slice(name.length + 1), cookie)),
  };
}

function isSame(given: string, wanted: string): boolean {
  const left = Buffer.from(given);
  const right = Buffer.from(wanted);
  return left.length === right.length && timingSafeEqual(left, right);
}
