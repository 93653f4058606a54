import { join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { askCli, runCli } from '../../support/run-cli.ts';
import { checksums, makeScanFolder } from '../../support/scan-folder.ts';
import { tempFolder } from '../../support/temp-folder.ts';

const names = Array.from({ length: 40 }, (_scan, at) => `frame_${String(at + 1).padStart(2, '0')}.jpg`);

async function emptyArchive(): Promise<string> {
  const archive = join(tempFolder(), 'archive');
  await askCli(['init', '--archive', archive]);
  await askCli([
    'roll',
    'add',
    '--number',
    '1',
    '--format',
    '135',
    '--frame-format',
    '24x36',
    '--archive',
    archive,
  ]);
  return archive;
}

/** What a scan-in leaves behind, without ids and instants. */
function endState(archive: string): unknown {
  const db = new Database(join(archive, 'archive.sqlite'), { readonly: true });
  const rows = (sql: string) => db.prepare(sql).all();
  const state = {
    scans: rows('SELECT path, sha256, state, size_bytes FROM scan ORDER BY path'),
    pictures: rows('SELECT sha256, page, width, height, hash, statistics_json FROM picture ORDER BY sha256'),
    frames: rows(`SELECT frame.ordinal, frame.label, scan.path, frame_scan.best FROM frame_scan
      JOIN frame ON frame.id = frame_scan.frame_id JOIN scan ON scan.id = frame_scan.scan_id ORDER BY frame.ordinal, scan.path`),
    sound: rows('PRAGMA integrity_check'),
    dangling: rows('PRAGMA foreign_key_check'),
  };
  db.close();
  // The index of what pictures show is filled at low priority, as far as it came: it is no part of the end state.
  const previews = [...checksums(join(archive, 'previews'))].filter(([name]) => !name.startsWith('look-up'));
  return { ...state, previews };
}

describe('killing a scan-in', () => {
  it('leaves an archive that goes on to the same end, twenty times over', { timeout: 300_000 }, async () => {
    const scans = join(tempFolder(), 'scans');
    await makeScanFolder(scans, names);
    const originals = checksums(scans);
    const undisturbed = await emptyArchive();
    const words = ['scan-in', scans, '--roll', '1', '--archive'];
    const begun = performance.now();
    expect((await runCli([...words, undisturbed])).code).toBe(0);
    const whole = performance.now() - begun;

    let killed = 0;
    const disturbed = await emptyArchive();
    for (let kill = 1; kill <= 20; kill += 1) {
      // From before the archive is open to when the last frames are tied, at points spread over the whole run.
      const { code } = await runCli([...words, disturbed], (whole * kill) / 21);
      if (code === null) killed += 1;
    }
    expect((await runCli([...words, disturbed])).code).toBe(0);
    expect(endState(disturbed)).toEqual(endState(undisturbed));
    expect(checksums(scans)).toEqual(originals);
    expect(killed).toBeGreaterThan(5);
  });
});
