/**
 * What a message may weigh, in bytes of its JSON text.
 * Our choice: a roll order of 1 000 000 ids is 8 MB, the largest answer there is; twice that leaves room.
 */
export const MESSAGE_LIMIT_BYTES = 16 * 1024 * 1024;

/** How deep a message may nest. Our choice: ours nest 8 deep at most. */
const DEPTH_LIMIT = 64;

/** What a value is as a message: its weight, or why it cannot be one. */
export type Weighed =
  | { readonly ok: true; readonly bytes: number }
  | { readonly ok: false; readonly reason: 'too large'; readonly bytes: number }
  | { readonly ok: false; readonly reason: 'not json'; readonly at: string };

/**
 * Weighs `value` as JSON, in bytes of UTF-8 without counting escapes, and stops as soon as it is over
 * `limitBytes` or holds something JSON has not: a date, a map, bytes, a class instance, a cycle, NaN, a bigint,
 * a function, undefined in an array. A property that is undefined counts as absent.
 */
export function weighJson(value: unknown, limitBytes: number): Weighed {
  let bytes = 0;
  let failure: Weighed | null = null;

  function add(count: number): boolean {
    bytes += count;
    if (bytes > limitBytes) failure ??= { ok: false, reason: 'too large', bytes };
    return failure === null;
  }
  function refuse(at: string): boolean {
    failure ??= { ok: false, reason: 'not json', at };
    return false;
  }
  function walk(part: unknown, at: string, depth: number): boolean {
    if (depth > DEPTH_LIMIT) return refuse(at);
    if (part === null) return add(4);
    if (typeof part === 'string') return add(utf8Bytes(part) + 2);
    if (typeof part === 'boolean') return add(part ? 4 : 5);
    if (typeof part === 'number') return Number.isFinite(part) ? add(String(part).length) : refuse(at);
    if (typeof part !== 'object') return refuse(at);
    if (!add(2)) return false;
    if (Array.isArray(part)) {
      for (let index = 0; index < part.length; index += 1) {
        if (!add(1) || !walk(part[index], `${at}[${index}]`, depth + 1)) return false;
      }
      return true;
    }
    if (!isPlain(part)) return refuse(at);
    for (const [key, inner] of Object.entries(part)) {
      if (inner === undefined) continue;
      if (!add(utf8Bytes(key) + 4) || !walk(inner, `${at}.${key}`, depth + 1)) return false;
    }
    return true;
  }

  walk(value, '$', 0);
  return failure ?? { ok: true, bytes };
}

/** Plain objects of any realm: made by `{}`, by JSON, or without a prototype. */
function isPlain(value: object): boolean {
  const prototype: unknown = Object.getPrototypeOf(value);
  if (prototype === null) return true;
  return Object.getPrototypeOf(prototype) === null && Object.hasOwn(Object(prototype), 'hasOwnProperty');
}

function utf8Bytes(text: string): number {
  let bytes = text.length;
  for (let at = 0; at < text.length; at += 1) {
    const unit = text.charCodeAt(at);
    // A surrogate pair is two units and four bytes: one more for each unit.
    if (unit > 0x7f) bytes += unit > 0x7ff && (unit < 0xd800 || unit > 0xdfff) ? 2 : 1;
  }
  return bytes;
}
