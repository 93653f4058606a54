import { I32, V128, type AssembledFunction } from './assemble.ts';
import * as wasm from './instructions.ts';

const { get, set, number } = wasm;

/**
 * nearest(wanted, end of wanted, ranges, out, known, bytes between the words of the known, most bits of the first
 * word): for each signature (three words) of `wanted` the one of the known signatures, in its two ranges (from, before,
 * from, before), that differs in fewest bits. `out` starts as the bits that it must be below × 65536 and becomes bits ×
 * 65536 + number where there is one. The known signatures lie word by word.
 */
export function nearestFunction(): AssembledFunction {
  const [wanted, wantedEnd, ranges, out, known, pitch, firstLimit] = [0, 1, 2, 3, 4, 5, 6];
  const [range, from, to, address, best, found] = [7, 8, 9, 10, 11, 12];
  const [one, two, three, numbers, bests, founds, starts, distance, mask] = [
    13, 14, 15, 16, 17, 18, 19, 20, 21,
  ];
  const differing = (own: number, offset: wasm.Code) =>
    wasm.exclusiveOr(wasm.loadVector(wasm.add(get(address), offset)), get(own));
  const accepted = wasm.andVectors(
    wasm.andVectors(
      wasm.lessOrEqualLanes(get(starts), wasm.spread(get(firstLimit))),
      wasm.lessLanes(get(distance), get(bests)),
    ),
    wasm.lessLanes(get(numbers), wasm.spread(get(to))),
  );
  const lanes = [0, 1, 2, 3].flatMap((lane) => [
    // Bits and number in one: the fewest bits win, then the lower number.
    ...set(
      found,
      wasm.or(wasm.shiftLeft(wasm.lane(get(bests), lane), number(16)), wasm.lane(get(founds), lane)),
    ),
    ...wasm.when(wasm.less(get(found), get(best)), set(best, get(found))),
  ]);
  const search = [
    set(numbers, wasm.addLanes(wasm.spread(get(from)), wasm.vectorOf(0, 1, 2, 3))),
    set(bests, wasm.spread(wasm.shiftRight(get(best), number(16)))),
    set(founds, wasm.vectorOf(0xffff, 0xffff, 0xffff, 0xffff)),
    set(address, wasm.add(get(known), wasm.shiftLeft(get(from), number(2)))),
    wasm.during(
      wasm.less(get(from), get(to)),
      set(starts, wasm.countLanes(differing(one, number(0)))),
      set(
        distance,
        wasm.addLanes(
          get(starts),
          wasm.countLanes(
            differing(two, get(pitch)),
            differing(three, wasm.shiftLeft(get(pitch), number(1))),
          ),
        ),
      ),
      set(mask, accepted),
      set(bests, wasm.choose(get(distance), get(bests), get(mask))),
      set(founds, wasm.choose(get(numbers), get(founds), get(mask))),
      set(numbers, wasm.addLanes(get(numbers), wasm.vectorOf(4, 4, 4, 4))),
      set(address, wasm.add(get(address), number(16))),
      set(from, wasm.add(get(from), number(4))),
    ),
    lanes,
  ];
  const body = wasm.during(
    wasm.less(get(wanted), get(wantedEnd)),
    set(one, wasm.spread(wasm.load32(get(wanted), 0))),
    set(two, wasm.spread(wasm.load32(get(wanted), 4))),
    set(three, wasm.spread(wasm.load32(get(wanted), 8))),
    set(best, wasm.load32(get(out))),
    set(range, number(0)),
    wasm.during(
      wasm.less(get(range), number(16)),
      set(from, wasm.load32(wasm.add(get(ranges), get(range)))),
      set(to, wasm.load32(wasm.add(get(ranges), get(range)), 4)),
      wasm.when(wasm.less(get(from), get(to)), ...search),
      set(range, wasm.add(get(range), number(8))),
    ),
    wasm.store32(get(out), get(best)),
    set(wanted, wasm.add(get(wanted), number(12))),
    set(ranges, wasm.add(get(ranges), number(16))),
    set(out, wasm.add(get(out), number(4))),
  );
  return {
    name: 'nearest',
    parameters: [I32, I32, I32, I32, I32, I32, I32],
    result: false,
    locals: [I32, I32, I32, I32, I32, I32, V128, V128, V128, V128, V128, V128, V128, V128, V128],
    body: [...body],
  };
}
