/**
 * Scans in, against the least that any import has to do with the same library: read, checksum, decode to 1600 px.
 * Both run in this process, in turns; the medians of CPU seconds are compared. Run: `node test/bench/scans-in.ts`.
 */
import { hash } from 'node:crypto';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { sharp } from '../../main/engine/scans/image-library.ts';
import { readScan } from '../../main/engine/scans/read-scan.ts';

const RUNS = 31;
const TODAY = '2026-01-01';

/** A scene with detail at all sizes and grain, as film has, repeatable. */
function drawGrainyScene(width: number, height: number): Buffer {
  const pixels = Buffer.alloc(width * height * 3);
  let state = 12_345;
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const at = (y * width + x) * 3;
      const shade = 128 + 60 * Math.sin(x / 97) * Math.cos(y / 61) + 30 * Math.sin((x * y) / 9000);
      state = (Math.imul(state, 1_103_515_245) + 12_345) >>> 0;
      const grain = ((state >>> 16) & 31) - 16;
      pixels[at] = Math.max(0, Math.min(255, shade + grain));
      pixels[at + 1] = Math.max(0, Math.min(255, shade * 0.9 + grain));
      pixels[at + 2] = Math.max(0, Math.min(255, shade * 0.7 + 20 + grain));
    }
  }
  return pixels;
}

async function makeFiles(folder: string): Promise<{ name: string; path: string; goal: number }[]> {
  const small = { raw: { width: 3000, height: 2000, channels: 3 as const } };
  const six = drawGrainyScene(3000, 2000);
  const files = [
    { name: '6 MP JPEG', path: join(folder, 'six.jpg'), goal: 1.35 },
    { name: '6 MP 16-bit TIFF', path: join(folder, 'six.tif'), goal: 1.15 },
    { name: '24 MP JPEG', path: join(folder, 'twenty-four.jpg'), goal: 1.15 },
    { name: '6 MP JPEG with a wide profile', path: join(folder, 'wide.jpg'), goal: 1.35 },
  ];
  const [jpeg, tiff, large, wide] = files;
  if (!jpeg || !tiff || !large || !wide) return files;
  writeFileSync(jpeg.path, await sharp(six, small).jpeg({ quality: 92 }).toBuffer());
  const deep = await sharp(six, small).toColourspace('rgb16').tiff({ compression: 'none' }).toBuffer();
  writeFileSync(tiff.path, deep);
  const big = { raw: { width: 6000, height: 4000, channels: 3 as const } };
  writeFileSync(large.path, await sharp(drawGrainyScene(6000, 4000), big).jpeg({ quality: 92 }).toBuffer());
  writeFileSync(wide.path, await sharp(six, small).withIccProfile('p3').jpeg({ quality: 92 }).toBuffer());
  return files;
}

async function yardstick(path: string): Promise<void> {
  const bytes = readFileSync(path);
  hash('sha256', bytes);
  // The fastest way the library has for each kind: no profile conversion, read in order, 16 bits brought to 8 before the
  // resize.
  const decode = sharp(bytes, { ignoreIcc: true, sequentialRead: true });
  if (path.endsWith('.tif')) decode.pipelineColourspace('srgb');
  await decode.resize(1600, 1600, { fit: 'inside' }).raw().toBuffer();
}

async function cpuMs(work: () => Promise<unknown>): Promise<number> {
  const before = process.cpuUsage();
  await work();
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1000;
}

function say(line: string): void {
  process.stdout.write(`${line}\n`);
}

function median(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? 0;
}

const folder = mkdtempSync(join(tmpdir(), 'scans-in-'));
try {
  for (const { name, path, goal } of await makeFiles(folder)) {
    const times = { yardstick: [] as number[], whole: [] as number[], first: [] as number[] };
    for (let run = 0; run < RUNS + 2; run++) {
      const yard = await cpuMs(() => yardstick(path));
      const whole = await cpuMs(() => readScan(path, { today: TODAY }));
      const first = await cpuMs(() => readScan(path, { today: TODAY, size: 'small' }));
      // The first two runs only warm up.
      if (run < 2) continue;
      times.yardstick.push(yard);
      times.whole.push(whole);
      times.first.push(first);
    }
    const yard = median(times.yardstick);
    const least = Math.min(...times.yardstick);
    const ratios = (values: readonly number[]): string =>
      `${(median(values) / yard).toFixed(2)} (of the quickest runs ${(Math.min(...values) / least).toFixed(2)})`;
    say(
      `${name}: yardstick ${yard.toFixed(0)} ms CPU; whole ${ratios(times.whole)}, goal ${goal}; ` +
        `first pass ${ratios(times.first)}`,
    );
  }
  say(`largest resident memory ${Math.round(process.resourceUsage().maxRSS / 1024)} MiB`);
} finally {
  rmSync(folder, { recursive: true });
}
