/** Value types of a WebAssembly function. Source: W3C, WebAssembly Core Specification 2.0, section 5.3. */
export const I32 = 0x7f;
export const F32 = 0x7d;
export const V128 = 0x7b;

/** One function: `body` may use the parameters first, then the locals, by number. It returns nothing or an i32. */
export interface AssembledFunction {
  readonly name: string;
  readonly parameters: readonly number[];
  readonly result: boolean;
  readonly locals: readonly number[];
  readonly body: readonly number[];
}

/** "\\0asm", then version 1. */
const MAGIC_AND_VERSION = [0x00, 0x61, 0x73, 0x6d, 0x01, 0x00, 0x00, 0x00];

/** An unsigned number in LEB128. Source: the same, section 5.2.2. */
export function unsigned(value: number): number[] {
  const bytes: number[] = [];
  let rest = value;
  do {
    const byte = rest & 0x7f;
    rest >>>= 7;
    bytes.push(rest === 0 ? byte : byte | 0x80);
  } while (rest !== 0);
  return bytes;
}

/** A signed 32-bit number in LEB128. */
export function signed(value: number): number[] {
  const bytes: number[] = [];
  let rest = value;
  for (;;) {
    const byte = rest & 0x7f;
    rest >>= 7;
    const done = (rest === 0 && (byte & 0x40) === 0) || (rest === -1 && (byte & 0x40) !== 0);
    bytes.push(done ? byte : byte | 0x80);
    if (done) return bytes;
  }
}

/** A module of `functions` over one imported memory, `env.memory`. Source: the same, section 5.5. */
export function assembleModule(functions: readonly AssembledFunction[]): Uint8Array<ArrayBuffer> {
  const types = functions.map((one) => [
    0x60,
    ...list(one.parameters.map((type) => [type])),
    ...(one.result ? [1, I32] : [0]),
  ]);
  const imports = [[...text('env'), ...text('memory'), 0x02, 0x00, 0x01]];
  const exports = functions.map((one, i) => [...text(one.name), 0x00, ...unsigned(i)]);
  const code = functions.map((one) => {
    const inside = [...list(one.locals.map((type) => [1, type])), ...one.body, 0x0b];
    return [...unsigned(inside.length), ...inside];
  });
  return Uint8Array.from([
    ...MAGIC_AND_VERSION,
    ...section(1, list(types)),
    ...section(2, list(imports)),
    ...section(3, list(functions.map((_, i) => unsigned(i)))),
    ...section(7, list(exports)),
    ...section(10, list(code)),
  ]);
}

function section(number: number, content: readonly number[]): number[] {
  return [number, ...unsigned(content.length), ...content];
}

function list(items: readonly (readonly number[])[]): number[] {
  return [...unsigned(items.length), ...items.flat()];
}

function text(value: string): number[] {
  return [...unsigned(value.length), ...[...value].map((letter) => letter.charCodeAt(0))];
}

/** Instructions, by their names in the specification, section 5.4. */
export const at = {
  /** One after the other. */
  all: (...parts: readonly (readonly number[])[]) => parts.flat(),
  get: (local: number) => [0x20, ...unsigned(local)],
  set: (local: number) => [0x21, ...unsigned(local)],
  number: (value: number) => [0x41, ...signed(value)],
  plus: [0x6a],
  minus: [0x6b],
  lessUnsigned: [0x49],
  loadVector: (offset: number) => [0xfd, 0x00, 0x02, ...unsigned(offset)],
  loadSplat: (offset: number) => [0xfd, 0x09, 0x02, ...unsigned(offset)],
  storeVector: (offset: number) => [0xfd, 0x0b, 0x02, ...unsigned(offset)],
  plusFloats: [0xfd, 0xe4, 0x01],
  timesFloats: [0xfd, 0xe6, 0x01],
  /** `body`, again and again while it leaves a number other than 0. Runs at least once. */
  repeatWhile: (body: readonly number[]) => [0x03, 0x40, ...body, 0x0d, 0x00, 0x0b],
};
