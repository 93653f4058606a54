import {
  appendFileSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { openSegments, type EntryPlace } from '../../../../main/engine/look-up/segments.ts';

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'look-up-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const entry = (number: number) => Uint8Array.from({ length: 50 + number }, (_, i) => (i * number) & 255);

function fill(from: number, to: number, version = 1): EntryPlace[] {
  const log = openSegments(folder, version);
  log.readAll(() => {});
  const places = [];
  for (let number = from; number <= to; number++) places.push(log.append(entry(number)));
  log.close();
  return places;
}

function contents(version = 1): Uint8Array[] {
  const log = openSegments(folder, version);
  const all: Uint8Array[] = [];
  log.readAll((content) => all.push(Uint8Array.from(content)));
  log.close();
  return all;
}

const file = () => join(folder, readdirSync(folder)[0] ?? '');

describe('segments of the look-up index', () => {
  it('hand back what was appended, over several openings', () => {
    fill(1, 5);
    fill(6, 9);
    expect(contents()).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9].map(entry));
  });

  it('read one entry by its place, flushed or not', () => {
    const log = openSegments(folder, 1);
    const first = log.append(entry(1));
    log.flush();
    const second = log.append(entry(2));
    expect(Uint8Array.from(log.read(first) ?? [])).toEqual(entry(1));
    expect(Uint8Array.from(log.read(second) ?? [])).toEqual(entry(2));
    log.close();
  });

  it('lose only the last entry when cut at any byte of it', () => {
    const places = fill(1, 4);
    const start = (places[3]?.offset ?? 0) - 8;
    const whole = readFileSync(file());
    for (let length = start; length < whole.length; length++) {
      writeFileSync(file(), whole);
      truncateSync(file(), length);
      expect(contents()).toEqual([1, 2, 3].map(entry));
    }
  });

  it('go on after a torn tail', () => {
    fill(1, 3);
    appendFileSync(file(), Buffer.from([200, 0, 0, 0, 1, 2, 3, 4, 5, 6]));
    fill(4, 5);
    expect(contents()).toEqual([1, 2, 3, 4, 5].map(entry));
  });

  it('give up what follows a damaged entry rather than hand it over', () => {
    const places = fill(1, 4);
    const bytes = readFileSync(file());
    const at = (places[1]?.offset ?? 0) + 10;
    bytes[at] = (bytes[at] ?? 0) ^ 1;
    writeFileSync(file(), bytes);
    expect(contents()).toEqual([entry(1)]);
  });

  it('start empty with another codebook', () => {
    fill(1, 4, 1);
    expect(contents(2)).toEqual([]);
    expect(readdirSync(folder)).toEqual([]);
  });
});
