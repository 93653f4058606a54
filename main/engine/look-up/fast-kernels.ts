import type { Kernels } from '../../../shared/domain/look-up/kernels.ts';
import { at, I32, V128, type AssembledFunction } from './assemble.ts';
import { differFunction, standOutFunction } from './extrema-kernels.ts';
import { nearestFunction } from './nearest-kernel.ts';
import { createWasmMemory } from './wasm-memory.ts';

const FLOAT_BYTES = 4;
/** Four vectors of four floats: what one turn of either loop works on. */
const STRIDE_FLOATS = 16;
const STRIDE_BYTES = STRIDE_FLOATS * FLOAT_BYTES;
const QUARTERS = [0, 1, 2, 3] as const;

/** weigh(source, target, end of target, step, weights, end of weights): target = Σ weight × (before + after). */
function weighFunction(): AssembledFunction {
  const [source, target, end, step, weights, weightsEnd, before, after, weight] = [0, 1, 2, 3, 4, 5, 6, 7, 8];
  const factor = 9;
  const sum = (quarter: number) => 10 + quarter;
  const body = at.repeatWhile([
    ...at.get(weights),
    ...at.loadSplat(0),
    ...at.set(factor),
    ...QUARTERS.flatMap((q) => [
      ...at.get(source),
      ...at.loadVector(q * 16),
      ...at.get(factor),
      ...at.timesFloats,
      ...at.set(sum(q)),
    ]),
    ...at.all(at.get(source), at.set(before), at.get(source), at.set(after)),
    ...at.all(at.get(weights), at.set(weight)),
    ...at.repeatWhile([
      ...at.all(at.get(weight), at.number(FLOAT_BYTES), at.plus, at.set(weight)),
      ...at.all(at.get(before), at.get(step), at.minus, at.set(before)),
      ...at.all(at.get(after), at.get(step), at.plus, at.set(after)),
      ...at.all(at.get(weight), at.loadSplat(0), at.set(factor)),
      ...QUARTERS.flatMap((q) => [
        ...at.get(sum(q)),
        ...at.get(before),
        ...at.loadVector(q * 16),
        ...at.get(after),
        ...at.loadVector(q * 16),
        ...at.plusFloats,
        ...at.get(factor),
        ...at.timesFloats,
        ...at.plusFloats,
        ...at.set(sum(q)),
      ]),
      ...at.all(at.get(weight), at.get(weightsEnd), at.lessUnsigned),
    ]),
    ...QUARTERS.flatMap((q) => [...at.get(target), ...at.get(sum(q)), ...at.storeVector(q * 16)]),
    ...at.all(at.get(source), at.number(STRIDE_BYTES), at.plus, at.set(source)),
    ...at.all(at.get(target), at.number(STRIDE_BYTES), at.plus, at.set(target)),
    ...at.all(at.get(target), at.get(end), at.lessUnsigned),
  ]);
  return {
    name: 'weigh',
    parameters: [I32, I32, I32, I32, I32, I32],
    result: false,
    locals: [I32, I32, I32, V128, V128, V128, V128, V128],
    body,
  };
}

/** dots(vector, end of vector, table, bytes of a table row, out, end of out). */
function dotsFunction(): AssembledFunction {
  const [vector, vectorEnd, table, rowBytes, out, end, place, row] = [0, 1, 2, 3, 4, 5, 6, 7];
  const factor = 8;
  const sum = (quarter: number) => 9 + quarter;
  const zero = [0xfd, 0x0c, ...new Array<number>(16).fill(0)];
  const body = at.repeatWhile([
    ...QUARTERS.flatMap((q) => [...zero, ...at.set(sum(q))]),
    ...at.all(at.get(vector), at.set(place), at.get(table), at.set(row)),
    ...at.repeatWhile([
      ...at.all(at.get(place), at.loadSplat(0), at.set(factor)),
      ...QUARTERS.flatMap((q) => [
        ...at.get(sum(q)),
        ...at.get(row),
        ...at.loadVector(q * 16),
        ...at.get(factor),
        ...at.timesFloats,
        ...at.plusFloats,
        ...at.set(sum(q)),
      ]),
      ...at.all(at.get(row), at.get(rowBytes), at.plus, at.set(row)),
      ...at.all(at.get(place), at.number(FLOAT_BYTES), at.plus, at.set(place)),
      ...at.all(at.get(place), at.get(vectorEnd), at.lessUnsigned),
    ]),
    ...QUARTERS.flatMap((q) => [...at.get(out), ...at.get(sum(q)), ...at.storeVector(q * 16)]),
    ...at.all(at.get(table), at.number(STRIDE_BYTES), at.plus, at.set(table)),
    ...at.all(at.get(out), at.number(STRIDE_BYTES), at.plus, at.set(out)),
    ...at.all(at.get(out), at.get(end), at.lessUnsigned),
  ]);
  return {
    name: 'dots',
    parameters: [I32, I32, I32, I32, I32, I32],
    result: false,
    locals: [I32, I32, V128, V128, V128, V128, V128],
    body,
  };
}

/** The kernels in four-wide WebAssembly: the same sums as `PLAIN_KERNELS`, added up in another order. */
export function createFastKernels(): Kernels {
  const memory = createWasmMemory([
    weighFunction(),
    dotsFunction(),
    differFunction(),
    standOutFunction(),
    nearestFunction(),
  ]);
  const [weigh, dots] = [memory.find('weigh'), memory.find('dots')];
  const [differ, standOut] = [memory.find('differ'), memory.find('standOut')];
  const nearest = memory.find('nearest');
  let tableInMemory: Float32Array | null = null;

  function floats(count: number): Float32Array {
    memory.reserve(count * FLOAT_BYTES);
    return memory.floats();
  }

  return {
    blur(source, width, height, weights, out) {
      tableInMemory = null;
      const radius = weights.length - 1;
      const margin = roundUp(radius);
      const pitch = roundUp(width) + 2 * margin;
      const planeFloats = (height + 2 * radius) * pitch + 2 * margin;
      const first = roundUp(weights.length) + margin;
      const second = first + roundUp(planeFloats);
      const all = floats(second + roundUp(planeFloats) + STRIDE_FLOATS);
      all.set(weights, 0);
      const lastWeight = radius * FLOAT_BYTES;
      const top = radius * pitch;
      for (let y = 0; y < height; y++) {
        const row = first + top + y * pitch;
        all.fill(source[y * width] ?? 0, row, row + margin);
        all.set(source.subarray(y * width, (y + 1) * width), row + margin);
        all.fill(source[(y + 1) * width - 1] ?? 0, row + margin + width, row + pitch);
      }
      const from = (first + top) * FLOAT_BYTES;
      const to = (second + top) * FLOAT_BYTES;
      const bytes = height * pitch * FLOAT_BYTES;
      weigh(from, to, to + bytes, FLOAT_BYTES, 0, lastWeight);
      const lastRow = second + top + (height - 1) * pitch;
      for (let k = 1; k <= radius; k++) {
        all.copyWithin(second + top - k * pitch, second + top, second + top + pitch);
        all.copyWithin(lastRow + k * pitch, lastRow, lastRow + pitch);
      }
      weigh(to, from, from + bytes, pitch * FLOAT_BYTES, 0, lastWeight);
      for (let y = 0; y < height; y++) {
        const row = first + top + y * pitch + margin;
        out.set(all.subarray(row, row + width), y * width);
      }
    },
    dots(vector, table, out) {
      const vectorAt = roundUp(table.length);
      const outAt = vectorAt + roundUp(vector.length);
      const all = floats(outAt + roundUp(out.length));
      // A table is used for hundreds of vectors on end: it is copied in only when another one comes.
      if (tableInMemory !== table) all.set(table, 0);
      tableInMemory = table;
      all.set(vector, vectorAt);
      const vectorBytes = vectorAt * FLOAT_BYTES;
      const outBytes = outAt * FLOAT_BYTES;
      dots(
        vectorBytes,
        vectorBytes + vector.length * FLOAT_BYTES,
        0,
        out.length * FLOAT_BYTES,
        outBytes,
        outBytes + out.length * FLOAT_BYTES,
      );
      out.set(all.subarray(outAt, outAt + out.length));
    },
    extrema(levels, width, height, border, least) {
      tableInMemory = null;
      const plane = roundUp(width * height) + STRIDE_FLOATS;
      const count = levels.length - 1;
      const listAt = (levels.length + count) * plane;
      const all = floats(listAt + width * height);
      const at = (number: number) => number * plane * FLOAT_BYTES;
      levels.forEach((level, i) => all.set(level, i * plane));
      for (let i = 0; i < count; i++)
        differ(at(i), at(i + 1), at(levels.length + i), at(levels.length + i) + width * height * FLOAT_BYTES);
      const found: Int32Array[] = [];
      for (let i = 1; i + 1 < count; i++) {
        const here = levels.length + i;
        const number = standOut(
          at(here - 1),
          at(here),
          at(here + 1),
          width * FLOAT_BYTES,
          border,
          height - border,
          border * FLOAT_BYTES,
          (width - border) * FLOAT_BYTES,
          least,
          listAt * FLOAT_BYTES,
        );
        found.push(Int32Array.from(memory.words().subarray(listAt, listAt + number)));
      }
      return found;
    },
    nearest(wanted, known, ranges, limits) {
      tableInMemory = null;
      const count = known.length / 3;
      const pitch = roundUp(count) + STRIDE_FLOATS;
      const wantedAt = 3 * pitch;
      const rangesAt = wantedAt + wanted.length;
      const outAt = rangesAt + ranges.length;
      const outEnd = outAt + wanted.length / 3;
      memory.reserve(outEnd * FLOAT_BYTES);
      const words = memory.words();
      for (let i = 0; i < count; i++) {
        for (let word = 0; word < 3; word++) words[word * pitch + i] = known[i * 3 + word] ?? 0;
      }
      words.set(wanted, wantedAt);
      words.set(ranges, rangesAt);
      const nothing = ((limits.whole + 1) << 16) | 0xffff;
      words.fill(nothing, outAt, outEnd);
      nearest(
        wantedAt * FLOAT_BYTES,
        rangesAt * FLOAT_BYTES,
        rangesAt * FLOAT_BYTES,
        outAt * FLOAT_BYTES,
        0,
        pitch * FLOAT_BYTES,
        limits.first,
      );
      const out = new Int32Array(outEnd - outAt);
      for (let i = 0; i < out.length; i++) {
        const found = words[outAt + i] ?? nothing;
        out[i] = found === nothing ? -1 : found;
      }
      return out;
    },
  };
}

function roundUp(count: number): number {
  return Math.ceil(count / STRIDE_FLOATS) * STRIDE_FLOATS;
}
