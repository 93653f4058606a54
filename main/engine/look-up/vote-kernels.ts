import { F32, I32, V128, type AssembledFunction } from './assemble.ts';
import * as wasm from './instructions.ts';

const { get, set, number } = wasm;

/** Where what a feature needs lies in memory, in bytes; see `postings.ts`. */
export interface VoteAddresses {
  /** Cells of a feature, nearest first. */
  readonly cells: number;
  /** The first 32 values of its descriptor, mixed. */
  readonly row: number;
  /** Of each word of the codebook the same, as an upper and as a lower half: 32 floats each. */
  readonly upper: number;
  readonly lower: number;
  /** Where each cell's postings start; one more at the end. */
  readonly starts: number;
  /** What a posting that differs in so many bits counts. */
  readonly weights: number;
  readonly hits: number;
  readonly hitWeights: number;
}

const FLOATS_OF_ROW = 32;

/**
 * scan(bits, places, end of bits, own bits, own turn, voter, last voters, count): every posting whose bits are near the
 * own ones is written down as a hit with its weight, once a picture. Answers how many hits there are now.
 */
function scanFunction(at: VoteAddresses, bitsLimit: number): AssembledFunction {
  const [bits, places, end, own, turn, voter, lastVoters, count] = [0, 1, 2, 3, 4, 5, 6, 7];
  const locals = { mask: 8, at: 9, place: 10, address: 11, ownLanes: 12 };
  const body = wasm.all(
    scanRun(at, bitsLimit, { bits, places, end, own, turn, voter, lastVoters, count, ...locals }),
    get(count),
  );
  return {
    name: 'scan',
    parameters: [I32, I32, I32, I32, I32, I32, I32, I32],
    result: true,
    locals: [I32, I32, I32, I32, V128],
    body,
  };
}

interface ScanLocals {
  readonly bits: number;
  readonly places: number;
  readonly end: number;
  readonly own: number;
  readonly turn: number;
  readonly voter: number;
  readonly lastVoters: number;
  readonly count: number;
  readonly mask: number;
  readonly at: number;
  readonly place: number;
  readonly address: number;
  readonly ownLanes: number;
}

function scanRun(addresses: VoteAddresses, bitsLimit: number, local: ScanLocals): wasm.Code {
  const { bits, places, end, own, turn, voter, lastVoters, count, mask, at, place, address, ownLanes } =
    local;
  const distances = wasm.countLanes(wasm.exclusiveOr(wasm.loadVector(get(bits)), get(ownLanes)));
  const bitsOff = wasm.countBits(wasm.exclusiveOrBits(wasm.load32(wasm.add(get(bits), get(at))), get(own)));
  const hit = [
    set(at, wasm.shiftLeft(wasm.lowestBit(get(mask)), number(2))),
    set(mask, wasm.and(get(mask), wasm.subtract(get(mask), number(1)))),
    set(place, wasm.load32(wasm.add(get(places), get(at)))),
    // A slot is a sixteenth of its place, a word is four bytes.
    set(
      address,
      wasm.add(get(lastVoters), wasm.shiftLeft(wasm.shiftRight(get(place), number(4)), number(2))),
    ),
    wasm.when(
      wasm.unequal(wasm.load32(get(address)), get(voter)),
      wasm.store32(get(address), get(voter)),
      wasm.store32(
        wasm.shiftLeft(get(count), number(2)),
        wasm.or(
          wasm.and(get(place), number(-16)),
          wasm.and(wasm.subtract(get(place), get(turn)), number(15)),
        ),
        addresses.hits,
      ),
      wasm.store32(
        wasm.shiftLeft(get(count), number(2)),
        wasm.load32(wasm.shiftLeft(bitsOff, number(2)), addresses.weights),
        addresses.hitWeights,
      ),
      set(count, wasm.add(get(count), number(1))),
    ),
  ];
  const left = wasm.subtract(get(end), get(bits));
  return wasm.all(
    set(ownLanes, wasm.spread(get(own))),
    wasm.during(
      wasm.less(get(bits), get(end)),
      set(
        mask,
        wasm.laneMask(
          wasm.lessOrEqualLanes(distances, wasm.vectorOf(bitsLimit, bitsLimit, bitsLimit, bitsLimit)),
        ),
      ),
      // The last four may reach beyond the end.
      wasm.when(
        wasm.less(left, number(16)),
        set(
          mask,
          wasm.and(
            get(mask),
            wasm.subtract(wasm.shiftLeft(number(1), wasm.shiftRight(left, number(2))), number(1)),
          ),
        ),
      ),
      wasm.during(get(mask), ...hit),
      set(bits, wasm.add(get(bits), number(16))),
      set(places, wasm.add(get(places), number(16))),
    ),
  );
}

/** The own bits against the middle of a cell: where the row is more than the upper and the lower word together. */
function ownBits(at: VoteAddresses, upper: number, lower: number): wasm.Code {
  const nibble = (quarter: number) =>
    wasm.shiftLeft(
      wasm.laneMask(
        wasm.moreFloats(
          wasm.loadVector(number(0), at.row + quarter * 16),
          wasm.addFloatLanes(
            wasm.loadVector(get(upper), at.upper + quarter * 16),
            wasm.loadVector(get(lower), at.lower + quarter * 16),
          ),
        ),
      ),
      number(quarter * 4),
    );
  return [0, 1, 2, 3, 4, 5, 6, 7].map(nibble).reduce((bits, next) => wasm.or(bits, next));
}

/**
 * scanCells(end of cells, size of the codebook, all bits, all places, own turn, voter, last voters, most): scans the
 * sorted postings of the cells in turn, leaving out those that would make it read more than `most`.
 */
function scanCellsFunction(at: VoteAddresses, bitsLimit: number): AssembledFunction {
  const [cellsEnd, size, allBits, allPlaces, turn, voter, lastVoters, most] = [0, 1, 2, 3, 4, 5, 6, 7];
  const [cell, start, length, count, bits, places, end, own, mask, lane, place, address, upper, lower] = [
    8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20, 21,
  ];
  const cellAddress = 22;
  const ownLanes = 23;
  const rowBytes = number(FLOATS_OF_ROW * 4);
  const body = wasm.all(
    set(cellAddress, number(at.cells)),
    wasm.during(
      wasm.less(get(cellAddress), get(cellsEnd)),
      set(cell, wasm.load32(get(cellAddress))),
      set(start, wasm.load32(wasm.shiftLeft(get(cell), number(2)), at.starts)),
      set(
        length,
        wasm.subtract(wasm.load32(wasm.shiftLeft(get(cell), number(2)), at.starts + 4), get(start)),
      ),
      wasm.when(
        wasm.lessOrEqual(get(length), get(most)),
        wasm.when(
          get(length),
          set(most, wasm.subtract(get(most), get(length))),
          set(bits, wasm.add(get(allBits), wasm.shiftLeft(get(start), number(2)))),
          set(places, wasm.add(get(allPlaces), wasm.shiftLeft(get(start), number(2)))),
          set(end, wasm.add(get(bits), wasm.shiftLeft(get(length), number(2)))),
          set(upper, wasm.times(wasm.quotient(get(cell), get(size)), rowBytes)),
          set(lower, wasm.times(wasm.remainder(get(cell), get(size)), rowBytes)),
          set(own, ownBits(at, upper, lower)),
          scanRun(at, bitsLimit, {
            bits,
            places,
            end,
            own,
            turn,
            voter,
            lastVoters,
            count,
            mask,
            at: lane,
            place,
            address,
            ownLanes,
          }),
        ),
      ),
      set(cellAddress, wasm.add(get(cellAddress), number(4))),
    ),
    get(count),
  );
  return {
    name: 'scanCells',
    parameters: [I32, I32, I32, I32, I32, I32, I32, I32],
    result: true,
    locals: [...new Array<number>(15).fill(I32), V128],
    body,
  };
}

/** tally(hits, end of hits, from hits to their weights, votes, share): every hit is added to the votes of its place. */
function tallyFunction(): AssembledFunction {
  const [hits, end, toWeights, votes, share, address] = [0, 1, 2, 3, 4, 5];
  const body = wasm.during(
    wasm.less(get(hits), get(end)),
    set(address, wasm.add(get(votes), wasm.shiftLeft(wasm.load32(get(hits)), number(2)))),
    wasm.storeFloat(
      get(address),
      wasm.addFloats(
        wasm.loadFloat(get(address)),
        wasm.timesFloats(wasm.loadFloat(wasm.add(get(hits), get(toWeights))), get(share)),
      ),
    ),
    set(hits, wasm.add(get(hits), number(4))),
  );
  return {
    name: 'tally',
    parameters: [I32, I32, I32, I32, F32],
    result: false,
    locals: [I32],
    body: [...body],
  };
}

/**
 * peaks(votes, sums, end of sums): for each picture the most votes that a turn has, with half of those of the turns
 * beside it.
 */
function peaksFunction(): AssembledFunction {
  const [votes, sums, end] = [0, 1, 2];
  const row = (quarter: number) => 3 + (quarter & 3);
  const most = 7;
  const half = wasm.vectorOf(0x3f000000, 0x3f000000, 0x3f000000, 0x3f000000);
  const smoothed = (quarter: number) => {
    const before = wasm.pick(get(row(quarter + 3)), get(row(quarter)), 3, 4, 5, 6);
    const after = wasm.pick(get(row(quarter)), get(row(quarter + 1)), 1, 2, 3, 4);
    const beside = wasm.timesFloatLanes(wasm.addFloatLanes(before, after), half);
    return wasm.addFloatLanes(get(row(quarter)), beside);
  };
  const body = wasm.during(
    wasm.less(get(sums), get(end)),
    ...[0, 1, 2, 3].map((quarter) => set(row(quarter), wasm.loadVector(get(votes), quarter * 16))),
    wasm.store32(get(sums), number(0)),
    wasm.when(
      wasm.anyBit(
        wasm.orVectors(wasm.orVectors(get(row(0)), get(row(1))), wasm.orVectors(get(row(2)), get(row(3)))),
      ),
      set(
        most,
        wasm.largerFloats(
          wasm.largerFloats(smoothed(0), smoothed(1)),
          wasm.largerFloats(smoothed(2), smoothed(3)),
        ),
      ),
      set(most, wasm.largerFloats(get(most), wasm.pick(get(most), get(most), 2, 3, 0, 1))),
      set(most, wasm.largerFloats(get(most), wasm.pick(get(most), get(most), 1, 0, 3, 2))),
      wasm.storeFloat(get(sums), wasm.laneFloat(get(most), 0)),
    ),
    set(sums, wasm.add(get(sums), number(4))),
    set(votes, wasm.add(get(votes), number(64))),
  );
  return {
    name: 'peaks',
    parameters: [I32, I32, I32],
    result: false,
    locals: [V128, V128, V128, V128, V128],
    body: [...body],
  };
}

/**
 * nearHashes(hashes, end of hashes, wanted hashes, their end, radius, out, most): into `out`, for each near pair, the
 * address of the hash and the distance × 256 + the number of the wanted one. Answers how many were found.
 */
function nearHashesFunction(): AssembledFunction {
  const [hashes, end, wanted, wantedEnd, radius, out, most] = [0, 1, 2, 3, 4, 5, 6];
  const [one, distance, count] = [7, 8, 9];
  const body = wasm.all(
    wasm.during(
      wasm.less(get(hashes), get(end)),
      set(one, get(wanted)),
      wasm.during(
        wasm.less(get(one), get(wantedEnd)),
        set(distance, wasm.bitsApart64(get(hashes), get(one))),
        wasm.when(
          wasm.lessOrEqual(get(distance), get(radius)),
          wasm.when(
            wasm.less(get(count), get(most)),
            wasm.store32(get(out), get(hashes)),
            wasm.store32(
              get(out),
              wasm.or(
                wasm.shiftLeft(get(distance), number(8)),
                wasm.shiftRight(wasm.subtract(get(one), get(wanted)), number(3)),
              ),
              4,
            ),
            set(out, wasm.add(get(out), number(8))),
            set(count, wasm.add(get(count), number(1))),
          ),
        ),
        set(one, wasm.add(get(one), number(8))),
      ),
      set(hashes, wasm.add(get(hashes), number(8))),
    ),
    get(count),
  );
  return {
    name: 'nearHashes',
    parameters: [I32, I32, I32, I32, I32, I32, I32],
    result: true,
    locals: [I32, I32, I32],
    body,
  };
}

/** The functions that count votes; postings count as near up to `bitsLimit` different bits. */
export function voteFunctions(at: VoteAddresses, bitsLimit: number): AssembledFunction[] {
  return [
    scanFunction(at, bitsLimit),
    scanCellsFunction(at, bitsLimit),
    tallyFunction(),
    peaksFunction(),
    nearHashesFunction(),
  ];
}
