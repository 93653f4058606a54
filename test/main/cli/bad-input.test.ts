import { chmodSync, mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { createArchive } from '../../../main/engine/archive/open-archive.ts';
import { makeJpegScan } from '../../support/make-scan.ts';
import { askCli, runCli } from '../../support/run-cli.ts';
import { tempFolder } from '../../support/temp-folder.ts';

async function archiveWithRoll(): Promise<string> {
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

describe('bad input on the command line', () => {
  it('says what is wrong with each file and takes the good one', async () => {
    const archive = await archiveWithRoll();
    const scans = join(tempFolder(), 'scans');
    mkdirSync(scans);
    writeFileSync(join(scans, 'frame 1.jpg'), await makeJpegScan());
    writeFileSync(join(scans, 'frame 2.jpg'), 'this is text');
    writeFileSync(join(scans, 'frame 3.jpg'), '');
    const whole = await makeJpegScan(300, 200);
    writeFileSync(join(scans, 'frame 4.jpg'), whole.subarray(0, Math.floor(whole.length * 0.4)));
    const { code, json } = await askCli(['scan-in', scans, '--roll', '1', '--archive', archive]);
    expect(code).toBe(0);
    expect(json).toMatchObject({
      files: [
        { path: 'frame 1.jpg', frame: '1', state: 'done', code: null },
        { path: 'frame 2.jpg', frame: null, state: 'failed', code: 'not_an_image' },
        { path: 'frame 3.jpg', frame: null, state: 'waiting', code: 'empty' },
        { path: 'frame 4.jpg', frame: null, state: 'waiting', code: 'cut_off' },
      ],
    });
  });

  it.each([
    ['a folder that is not there', ['scan-in', '/nowhere/at/all', '--roll', '1'], 'folder_missing'],
    ['a roll that is not there', ['where', '99'], 'roll_not_found'],
    ['a frame that is not there', ['where', '1/5'], 'frame_not_found'],
    [
      'a roll number that is taken',
      ['roll', 'add', '--number', '1', '--format', '135', '--frame-format', '24x36'],
      'roll_number_taken',
    ],
    [
      'a stock that is not there',
      ['roll', 'add', '--stock', 'none', '--format', '135', '--frame-format', '24x36'],
      'stock_not_found',
    ],
    [
      'a frame format of another film',
      ['roll', 'add', '--format', '120', '--frame-format', '24x36'],
      'value_not_valid',
    ],
    [
      'a date that is none',
      ['outing', 'add', '--title', 'x', '--date', '31 February', '--roll', '1'],
      'value_not_valid',
    ],
    [
      'a paper that is none',
      ['sheet', '--roll', '1', '--paper', 'napkin', '--out', 'x.pdf'],
      'paper_not_found',
    ],
    ['a roll without frames', ['sheet', '--roll', '1', '--paper', 'a4', '--out', 'x.pdf'], 'sheet_empty'],
    [
      'a layout that is none',
      ['file', '--roll', '1', '--binder', 'B', '--layout', 'shoebox'],
      'layout_not_found',
    ],
    ['an archive that is there already', ['init'], 'archive_exists'],
  ])('answers %s with one clear failure', async (_what, words, error) => {
    const archive = await archiveWithRoll();
    const { code, json } = await askCli([...words, '--archive', archive]);
    expect({ code, json }).toMatchObject({
      code: 1,
      json: {
        error: {
          code: error,
          title: expect.stringMatching(/\w/),
          detail: expect.stringMatching(/\w/),
          advice: expect.stringMatching(/\w/),
        },
      },
    });
  });

  it('gives people the same words on stderr', async () => {
    const archive = await archiveWithRoll();
    const { code, stdout, stderr } = await runCli(['where', '99', '--archive', archive]);
    expect({ code, stdout }).toEqual({ code: 1, stdout: '' });
    expect(stderr).toContain('99');
  });

  it('leaves an archive alone that another program has open', async () => {
    const folder = join(tempFolder(), 'archive');
    const open = createArchive(folder, () => new Date());
    const { code, json } = await askCli(['status', '--archive', folder]);
    open.close();
    expect({ code, json }).toMatchObject({ code: 1, json: { error: { code: 'archive_in_use' } } });
  });

  it('never writes over a file unasked', async () => {
    const archive = await archiveWithRoll();
    await askCli(['frame', 'note', '1', '--frames', '1-3', '--caption', 'x', '--archive', archive]);
    const out = join(tempFolder(), 'sheet.pdf');
    const sheet = ['sheet', '--roll', '1', '--paper', 'a4', '--out', out, '--archive', archive];
    writeFileSync(out, 'precious');
    const { code, json } = await askCli(sheet);
    expect({ code, json }).toMatchObject({ code: 1, json: { error: { code: 'file_exists' } } });
    expect((await askCli([...sheet, '--overwrite'])).code).toBe(0);
  });

  const root = process.getuid?.() === 0;

  it('passes over a folder it may not read, and says so', async () => {
    const archive = await archiveWithRoll();
    const scans = join(tempFolder(), 'scans');
    mkdirSync(join(scans, 'locked'), { recursive: true });
    writeFileSync(join(scans, '1.jpg'), await makeJpegScan());
    chmodSync(join(scans, 'locked'), 0o000);
    const { code, json } = await askCli(['scan-in', scans, '--roll', '1', '--archive', archive]);
    chmodSync(join(scans, 'locked'), 0o755);
    expect({ code, json }).toMatchObject({ code: 0, json: { files: [{ path: '1.jpg' }] } });
    // The administrator may read everything, so there is nothing to pass over then.
    expect(json).toMatchObject({ litter: root ? [] : [{ path: 'locked' }] });
  });

  it('makes no archive below a file', async () => {
    const file = join(tempFolder(), 'a file');
    writeFileSync(file, 'precious');
    const { code, json } = await askCli(['init', '--archive', join(file, 'archive')]);
    expect({ code, json }).toMatchObject({ code: 1, json: { error: { code: 'folder_unreadable' } } });
  });
});
