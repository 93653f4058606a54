import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Archive } from '../../../../main/engine/archive/archive.ts';
import { createArchive, openArchive } from '../../../../main/engine/archive/open-archive.ts';
import { tempFolder } from '../../../support/temp-folder.ts';

const now = () => new Date('2026-05-02T10:00:00Z');

/** Every catalogued row, table by table. */
function dump(archive: Archive): unknown {
  const tables = ['stock', 'roll', 'frame', 'tag', 'frame_tag', 'roll_state_date', 'strip', 'binder', 'page'];
  return tables.map((table) => archive.db.prepare(`SELECT * FROM ${table} ORDER BY 1, 2`).all());
}

function seed(archive: Archive): void {
  archive.db.exec(`
    INSERT INTO roll (id, number, number_sort, film_format, frame_format, state, created_at)
      VALUES (1, 'A', 'a', '135', '24x36', 'on hand', 'x');
    INSERT INTO frame (id, roll_id, ordinal, label) VALUES (1, 1, 1, '1'), (2, 1, 2, '2'), (3, 1, 3, '3');
    INSERT INTO tag (id, name) VALUES (1, 'sea'), (2, 'snow');`);
}

/** Changes a user might make, each refused by nothing. */
const CHANGES = [
  `UPDATE frame SET caption = 'it''s a ''quoted'' caption' WHERE id = 1`,
  `UPDATE frame SET caption = NULL WHERE id = 1`,
  `INSERT INTO frame_tag (tag_id, frame_id) SELECT 1, id FROM frame WHERE id = 2 ON CONFLICT DO NOTHING`,
  `DELETE FROM frame_tag`,
  `DELETE FROM frame WHERE id = 3`,
  `INSERT INTO frame (roll_id, ordinal, label) SELECT 1, max(ordinal) + 1, 'x' || (max(ordinal) + 1) FROM frame WHERE EXISTS (SELECT 1 FROM roll WHERE id = 1) HAVING max(ordinal) > 0`,
  `UPDATE roll SET title = 'Łódź 京都', number = 'B' WHERE id = 1`,
  `DELETE FROM roll WHERE id = 1`,
  `UPDATE frame SET aperture = 5.6, latitude = 0.1 WHERE id = 2`,
];

describe('undo', () => {
  it('takes back and makes again any run of changes, row for row', () => {
    const archive = createArchive(tempFolder(), now);
    seed(archive);
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...CHANGES), { minLength: 1, maxLength: 8 }), (changes) => {
        const before = dump(archive);
        archive.undo.record('Change', () => {
          for (const change of changes) archive.db.exec(change);
        });
        const after = dump(archive);
        const changed = archive.undo.next().undo === 'Change';
        if (changed) archive.undo.undo();
        expect(dump(archive)).toEqual(before);
        if (changed) archive.undo.redo();
        expect(dump(archive)).toEqual(after);
        if (changed) archive.undo.undo();
        expect(dump(archive)).toEqual(before);
      }),
    );
    archive.close();
  });

  it('still takes back after the archive was closed and opened', () => {
    const folder = tempFolder();
    const first = createArchive(folder, now);
    seed(first);
    first.undo.record('Caption', () => first.db.exec(`UPDATE frame SET caption = 'new' WHERE id = 1`));
    first.close();
    const second = openArchive(folder, now);
    expect(second.undo.undo()).toBe('Caption');
    expect(second.db.prepare('SELECT caption FROM frame WHERE id = 1').pluck().get()).toBe(null);
    second.close();
  });

  it('forgets what could be made again once something else is done', () => {
    const archive = createArchive(tempFolder(), now);
    seed(archive);
    archive.undo.record('One', () => archive.db.exec(`UPDATE frame SET caption = 'one' WHERE id = 1`));
    archive.undo.undo();
    archive.undo.record('Two', () => archive.db.exec(`UPDATE frame SET caption = 'two' WHERE id = 1`));
    expect(archive.undo.next()).toEqual({ undo: 'Two', redo: null });
    archive.close();
  });

  it('leaves nothing behind when the action fails half way', () => {
    const archive = createArchive(tempFolder(), now);
    seed(archive);
    const before = dump(archive);
    expect(() =>
      archive.undo.record('Fails', () => {
        archive.db.exec(`UPDATE frame SET caption = 'half' WHERE id = 1`);
        throw new Error('half way');
      }),
    ).toThrow('half way');
    expect(dump(archive)).toEqual(before);
    expect(archive.undo.next()).toEqual({ undo: null, redo: null });
    archive.close();
  });
});
