import { rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { createEngine } from '../../../../main/engine/engine.ts';
import { isAppError } from '../../../../shared/api/errors.ts';
import { askOf } from '../../../support/make-archive.ts';
import { canMakeSmallDisk, makeSmallDisk } from '../../../support/small-disk.ts';

const possible = canMakeSmallDisk();

describe('a full disk', () => {
  it.runIf(possible)(
    'is told as such, keeps what was saved, and is forgiven when there is room again',
    async () => {
      const disk = makeSmallDisk(6 << 20);
      const engine = createEngine();
      const ask = askOf(engine);
      await ask('archive.create', { folder: join(disk, 'archive') });
      const { id } = await ask('rolls.add', { filmFormat: '135', frameFormat: '24x36' });
      const filler = join(disk, 'filler');
      writeFileSync(filler, Buffer.alloc(3 << 20));
      let saved = 0;
      let refused = '';
      for (let note = 1; note <= 2000 && refused === ''; note += 1) {
        try {
          await ask('rolls.change', { id, change: { note: `${note} ${'x'.repeat(15_000)}` } });
          saved = note;
        } catch (error) {
          refused = isAppError(error) ? error.code : String(error);
        }
      }
      expect(refused).toBe('disk_full');
      rmSync(filler);
      expect((await ask('rolls.get', { id })).note).toMatch(new RegExp(`^${saved} x`));
      await ask('rolls.change', { id, change: { note: 'room again' } });
      expect(await ask('archive.check', {})).toEqual({ sound: true, findings: [] });
      await engine.close();
    },
  );
});
