import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { naturalKey } from '../../shared/domain/numbering/natural-key.ts';
import { serveWindow } from './serve-window.ts';

// Time from going to the window to the first rows of an archive of many rolls, against an empty page of the same
// browser; then long tasks while the list is scrolled and filtered: node test/bench/window.ts [ROLLS]

const ROLLS = Number(process.argv[2] ?? 100_000);
const ROUNDS = 5;

const median = (values: readonly number[]) =>
  [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN;

const home = mkdtempSync(join(tmpdir(), 'edgeprint-bench-'));
const archive = join(home, 'archive');
const { engine, browser, page, url, close } = await serveWindow();
try {
  await engine.call('archive.create', { folder: archive });
  await engine.call('archive.close', {});
  const db = new Database(join(archive, 'archive.sqlite'));
  const add = db.prepare(
    `INSERT INTO roll (number, number_sort, title, film_format, frame_format, state, created_at)
     VALUES (?, ?, ?, '135', '24x36', 'filed', '2026-01-01T00:00:00Z')`,
  );
  db.transaction(() => {
    for (let at = 1; at <= ROLLS; at += 1) {
      const number = `${1990 + (at % 36)}-${at}`;
      add.run(number, naturalKey(number), `Roll ${at} of the bench`);
    }
  })();
  db.close();
  await engine.call('archive.open', { folder: archive });

  const rows: number[] = [];
  const empty: number[] = [];
  for (let round = 0; round < ROUNDS; round += 1) {
    const blank = await browser.newPage();
    const before = performance.now();
    await blank.goto('about:blank');
    await blank.evaluate(() => new Promise((resolve) => requestAnimationFrame(resolve)));
    empty.push(performance.now() - before);
    await blank.close();
    const start = performance.now();
    await page.goto(url);
    await page.getByText('of the bench').first().waitFor();
    rows.push(performance.now() - start);
    await page.goto('about:blank');
  }
  await page.goto(url);
  await page.getByText('of the bench').first().waitFor();
  const long = await page.evaluate(async () => {
    const tasks: number[] = [];
    new PerformanceObserver((list) =>
      tasks.push(...list.getEntries().map((entry) => entry.duration)),
    ).observe({
      entryTypes: ['longtask'],
    });
    const scroller = [...document.querySelectorAll('*')].find(
      (element) => element.scrollHeight > 20_000 && element.clientHeight < 2000,
    );
    if (!scroller) return { found: false, tasks };
    for (let step = 0; step < 120; step += 1) {
      scroller.scrollTop += step < 60 ? 120 : 4000;
      await new Promise((resolve) => requestAnimationFrame(resolve));
    }
    return { found: true, tasks };
  });
  process.stdout.write(
    [
      `${ROLLS} rolls, ${ROUNDS} rounds`,
      `to the first rows: median ${median(rows).toFixed(0)} ms; an empty page: ${median(empty).toFixed(0)} ms`,
      long.found
        ? `scrolling 120 frames: ${long.tasks.length} tasks over 50 ms, the longest ${Math.max(0, ...long.tasks).toFixed(0)} ms`
        : 'no list was found to scroll',
      '',
    ].join('\n'),
  );
} finally {
  await close();
  rmSync(home, { recursive: true, force: true });
}
