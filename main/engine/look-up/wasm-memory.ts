import { assembleModule, type AssembledFunction } from './assemble.ts';

type WasmFunction = (...values: number[]) => number;

// The part of the standard global that is used here: the compiler's Node types do not declare it.
declare const WebAssembly: {
  readonly Memory: new (limits: { initial: number; maximum: number }) => {
    readonly buffer: ArrayBuffer;
    grow(pages: number): number;
  };
  readonly Module: new (bytes: Uint8Array<ArrayBuffer>) => object;
  readonly Instance: new (
    module: object,
    imports: object,
  ) => { readonly exports: Readonly<Record<string, WasmFunction>> };
};

const PAGE_BYTES = 65_536;
/** 4 GiB: what addresses of 32 bits reach. */
const MOST_PAGES = 65_536;

/** Memory that functions in WebAssembly work on; its views are good until it grows. */
export interface WasmMemory {
  /** Makes it at least this large (bytes). */
  readonly reserve: (bytes: number) => void;
  readonly words: () => Uint32Array<ArrayBuffer>;
  readonly floats: () => Float32Array<ArrayBuffer>;
  /** The function of that name. Numbers beyond 2³¹ may be given: they are taken modulo 2³². */
  readonly find: (name: string) => WasmFunction;
}

/** The functions, assembled, over a memory of their own. */
export function createWasmMemory(functions: readonly AssembledFunction[]): WasmMemory {
  const memory = new WebAssembly.Memory({ initial: 1, maximum: MOST_PAGES });
  const module = new WebAssembly.Module(assembleModule(functions));
  const { exports } = new WebAssembly.Instance(module, { env: { memory } });
  let words = new Uint32Array(memory.buffer);
  let floats = new Float32Array(memory.buffer);
  return {
    reserve: (bytes) => {
      const missing = bytes - memory.buffer.byteLength;
      if (missing <= 0) return;
      memory.grow(Math.ceil(missing / PAGE_BYTES));
      words = new Uint32Array(memory.buffer);
      floats = new Float32Array(memory.buffer);
    },
    words: () => words,
    floats: () => floats,
    find: (name) => {
      const found = exports[name];
      if (found === undefined) throw new Error(`the function ${name} did not load`);
      return found;
    },
  };
}
