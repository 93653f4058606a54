import { signed, unsigned } from './assemble.ts';

/** Instructions that leave one value, or do one thing, as bytes. */
export type Code = readonly number[];

// Operation codes: W3C, WebAssembly Core Specification 2.0, section 5.4 (vectors: 5.4.9, after the prefix 0xfd).
const binary = (code: number) => (a: Code, b: Code) => [...a, ...b, code];
const vector = (code: number) => [0xfd, ...unsigned(code)];
const vectorUnary = (code: number) => (a: Code) => [...a, ...vector(code)];
const vectorBinary = (code: number) => (a: Code, b: Code) => [...a, ...b, ...vector(code)];
const load = (code: Code) => (address: Code, offset: number, align: number) => [
  ...address,
  ...code,
  align,
  ...unsigned(offset),
];

export const get = (local: number): Code => [0x20, ...unsigned(local)];
export const set = (local: number, value: Code): Code => [...value, 0x21, ...unsigned(local)];
export const number = (value: number): Code => [0x41, ...signed(value)];

export const add = binary(0x6a);
export const subtract = binary(0x6b);
export const times = binary(0x6c);
export const quotient = binary(0x6e);
export const remainder = binary(0x70);
export const and = binary(0x71);
export const or = binary(0x72);
export const shiftLeft = binary(0x74);
export const shiftRight = binary(0x76);
export const unequal = binary(0x47);
export const less = binary(0x49);
export const lessOrEqual = binary(0x4d);
export const exclusiveOrBits = binary(0x73);
export const countBits = (a: Code): Code => [...a, 0x69];
/** The place of the lowest bit that is set. */
export const lowestBit = (a: Code): Code => [...a, 0x68];

export const load32 = (address: Code, offset = 0): Code => load([0x28])(address, offset, 2);
export const store32 = (address: Code, value: Code, offset = 0): Code => [
  ...address,
  ...value,
  0x36,
  2,
  ...unsigned(offset),
];
export const loadFloat = (address: Code, offset = 0): Code => load([0x2a])(address, offset, 2);
export const storeFloat = (address: Code, value: Code, offset = 0): Code => [
  ...address,
  ...value,
  0x38,
  2,
  ...unsigned(offset),
];
export const addFloats = binary(0x92);
export const timesFloats = binary(0x94);

/** How many bits of the 64 at one address differ from the 64 at another. */
export const bitsApart64 = (one: Code, other: Code): Code => [
  ...one,
  0x29,
  3,
  0,
  ...other,
  0x29,
  3,
  0,
  0x85,
  0x7b,
  0xa7,
];

export const loadVector = (address: Code, offset = 0): Code => load(vector(0x00))(address, offset, 2);
export const storeVector = (address: Code, value: Code, offset = 0): Code => [
  ...address,
  ...value,
  ...vector(0x0b),
  2,
  ...unsigned(offset),
];
/** One number in all four lanes. */
export const spread = vectorUnary(0x11);
export const spreadFloat = vectorUnary(0x13);
/** Four numbers of 32 bits. */
export const vectorOf = (...lanes: readonly [number, number, number, number]): Code => [
  ...vector(0x0c),
  ...new Uint8Array(Int32Array.from(lanes).buffer),
];
export const lane = (value: Code, which: number): Code => [...value, ...vector(0x1b), which];
export const laneFloat = (value: Code, which: number): Code => [...value, ...vector(0x1f), which];
/** The four lanes of two vectors (0 to 3 of the first, 4 to 7 of the second) picked anew. */
export const pick = (a: Code, b: Code, ...lanes: readonly [number, number, number, number]): Code => [
  ...a,
  ...b,
  ...vector(0x0d),
  ...lanes.flatMap((from) => [0, 1, 2, 3].map((byte) => from * 4 + byte)),
];
export const anyBit = vectorUnary(0x53);
export const andVectors = vectorBinary(0x4e);
export const orVectors = vectorBinary(0x50);
export const exclusiveOr = vectorBinary(0x51);
/** Bits of `a` where `mask` is set, of `b` elsewhere. */
export const choose = (a: Code, b: Code, mask: Code): Code => [...a, ...b, ...mask, ...vector(0x52)];
export const lessLanes = vectorBinary(0x39);
export const lessOrEqualLanes = vectorBinary(0x3d);
/** One bit for each lane whose highest bit is set. */
export const laneMask = vectorUnary(0xa4);
export const addLanes = vectorBinary(0xae);
const countBytes = vectorUnary(0x62);
const addBytes = vectorBinary(0x6e);
/** How many bits are set in each lane. */
export const countLanes = (...values: readonly Code[]): Code => {
  const counted = values.map((value) => countBytes(value)).reduce((sum, value) => addBytes(sum, value));
  return vectorUnary(0x7f)(vectorUnary(0x7d)(counted));
};
export const addFloatLanes = vectorBinary(0xe4);
export const subtractFloatLanes = vectorBinary(0xe5);
export const timesFloatLanes = vectorBinary(0xe6);
/** The second where it is smaller (larger), otherwise the first: one instruction of the machine, unlike `f32x4.min`. */
export const smallerFloats = vectorBinary(0xea);
export const largerFloats = vectorBinary(0xeb);
export const moreFloats = vectorBinary(0x44);
export const absoluteFloats = vectorUnary(0xe0);
export const atMostFloats = vectorBinary(0x45);
export const atLeastFloats = vectorBinary(0x46);

export const all = (...parts: readonly Code[]): Code => parts.flat();
export const when = (condition: Code, ...body: readonly Code[]): Code => [
  ...condition,
  0x04,
  0x40,
  ...body.flat(),
  0x0b,
];
/** `body`, again and again as long as `condition` holds, perhaps never. */
export const during = (condition: Code, ...body: readonly Code[]): Code => [
  0x02,
  0x40,
  0x03,
  0x40,
  ...condition,
  0x45,
  0x0d,
  0x01,
  ...body.flat(),
  0x0c,
  0x00,
  0x0b,
  0x0b,
];
