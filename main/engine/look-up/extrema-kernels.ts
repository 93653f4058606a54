import { F32, I32, V128, type AssembledFunction } from './assemble.ts';
import * as wasm from './instructions.ts';

const { get, set, number } = wasm;

/** differ(lower, upper, out, end of out): out = upper − lower. */
export function differFunction(): AssembledFunction {
  const [lower, upper, out, end] = [0, 1, 2, 3];
  const body = wasm.during(
    wasm.less(get(out), get(end)),
    wasm.storeVector(
      get(out),
      wasm.subtractFloatLanes(wasm.loadVector(get(upper)), wasm.loadVector(get(lower))),
    ),
    ...[lower, upper, out].map((pointer) => set(pointer, wasm.add(get(pointer), number(16)))),
  );
  return { name: 'differ', parameters: [I32, I32, I32, I32], result: false, locals: [], body: [...body] };
}

/**
 * standOut(below, here, above, bytes of a row, first row, end of rows, first column in bytes, end of columns in bytes,
 * least, list): into `list` the places of all values of `here`, at least `least` from 0, that no value of the 26 around
 * them goes beyond. Answers how many.
 */
export function standOutFunction(): AssembledFunction {
  const [below, here, above, pitch, row, endRow, firstColumn, endColumn, least, list] = [
    0, 1, 2, 3, 4, 5, 6, 7, 8, 9,
  ];
  const [column, place, mask, count, address, line, value, high, low, leasts] = [
    10, 11, 12, 13, 14, 15, 16, 17, 18, 19,
  ];
  const widen = (planes: readonly number[]) =>
    planes.flatMap((plane) =>
      [-1, 0, 1].flatMap((dy) => [
        ...set(
          line,
          wasm.add(
            get(plane),
            dy === 0
              ? get(place)
              : dy < 0
                ? wasm.subtract(get(place), get(pitch))
                : wasm.add(get(place), get(pitch)),
          ),
        ),
        ...[-4, 0, 4].flatMap((dx) => [
          ...set(value, wasm.loadVector(wasm.add(get(line), number(dx)))),
          ...set(high, wasm.largerFloats(get(high), get(value))),
          ...set(low, wasm.smallerFloats(get(low), get(value))),
        ]),
      ]),
    );
  const centre = () => wasm.loadVector(wasm.add(get(here), get(place)));
  const beyond = () =>
    wasm.andVectors(
      wasm.orVectors(wasm.atLeastFloats(get(value), get(high)), wasm.atMostFloats(get(value), get(low))),
      wasm.atLeastFloats(wasm.absoluteFloats(get(value)), get(leasts)),
    );
  const body = wasm.all(
    set(leasts, wasm.spreadFloat(get(least))),
    wasm.during(
      wasm.less(get(row), get(endRow)),
      set(column, get(firstColumn)),
      wasm.during(
        wasm.less(get(column), get(endColumn)),
        set(place, wasm.add(wasm.times(get(row), get(pitch)), get(column))),
        set(value, centre()),
        wasm.when(
          wasm.anyBit(wasm.atLeastFloats(wasm.absoluteFloats(get(value)), get(leasts))),
          set(high, get(value)),
          set(low, get(value)),
          widen([here]),
          set(value, centre()),
          // Most places end here, before the other two planes are read.
          wasm.when(
            wasm.anyBit(beyond()),
            widen([below, above]),
            set(value, centre()),
            set(mask, wasm.laneMask(beyond())),
          ),
          wasm.during(
            get(mask),
            set(address, wasm.shiftLeft(wasm.lowestBit(get(mask)), number(2))),
            set(mask, wasm.and(get(mask), wasm.subtract(get(mask), number(1)))),
            // The last four of a row may reach into its border.
            wasm.when(
              wasm.less(wasm.add(get(column), get(address)), get(endColumn)),
              wasm.store32(
                wasm.add(get(list), wasm.shiftLeft(get(count), number(2))),
                wasm.shiftRight(wasm.add(get(place), get(address)), number(2)),
              ),
              set(count, wasm.add(get(count), number(1))),
            ),
          ),
        ),
        set(column, wasm.add(get(column), number(16))),
      ),
      set(row, wasm.add(get(row), number(1))),
    ),
    get(count),
  );
  return {
    name: 'standOut',
    parameters: [I32, I32, I32, I32, I32, I32, I32, I32, F32, I32],
    result: true,
    locals: [I32, I32, I32, I32, I32, I32, V128, V128, V128, V128],
    body,
  };
}
