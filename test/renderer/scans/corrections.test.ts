import { describe, expect, it } from 'vitest';
import { applyCorrections, type Correction } from '../../../renderer/scans/corrections.ts';
import type { ProposedFile, ScanProposal } from '../../../shared/api/methods/scan-methods.ts';

const WHOLE = { x: 0, y: 0, width: 1, height: 1 };

function file(path: string, label: string | null, change: Partial<ProposedFile> = {}): ProposedFile {
  return {
    path,
    scanId: 1,
    pictureId: `${path}-0`,
    frames: label === null ? [] : [{ label, page: 0, region: WHOLE, pictureId: `${path}-0` }],
    order: 0,
    version: 'rescan',
    reason: 'The name says so.',
    confidence: 0.7,
    state: label === null ? 'skipped' : 'done',
    code: null,
    remark: null,
    ...change,
  };
}

function proposal(files: readonly ProposedFile[], questions: ScanProposal['questions'] = []): ScanProposal {
  return { folder: '/scans', files: [...files], questions, notes: [], litter: [] };
}

/** Which frame each file shows in the end, by path. */
function labels(of: ScanProposal, corrections: readonly Correction[]): Record<string, string> {
  const corrected = applyCorrections(of, corrections);
  if (!corrected.ok) throw new Error(corrected.reason);
  return Object.fromEntries(
    corrected.value.files.map(({ path, frames }) => [path, frames.map(({ label }) => label).join(' ')]),
  );
}

const THREE = proposal([file('a', '1'), file('b', '2'), file('c', '3')]);

// Expected labels by hand throughout: the film runs 1, 2, 3 and a file is moved along it by one place at a time.
describe('corrections of a proposal', () => {
  it('move every file by one', () => {
    expect(labels(THREE, [{ kind: 'shift', steps: 1 }])).toEqual({ a: '2', b: '3', c: '4' });
  });

  it('are made one after the other', () => {
    const corrections: Correction[] = [
      { kind: 'reverse' },
      { kind: 'shift', steps: -1 },
      { kind: 'leave out', path: 'b' },
    ];
    // 3 2 1, then 2 1 0, then without the middle one.
    expect(labels(THREE, corrections)).toEqual({ a: '2', b: '', c: '0' });
  });

  it('skip a file and move up those behind it', () => {
    expect(labels(THREE, [{ kind: 'skip', path: 'a' }])).toEqual({ a: '', b: '1', c: '2' });
  });

  it('count on from a file that is given another label', () => {
    expect(labels(THREE, [{ kind: 'count from', path: 'b', label: '12' }])).toEqual({
      a: '1',
      b: '12',
      c: '13',
    });
  });

  it('end the roll before a file', () => {
    expect(labels(THREE, [{ kind: 'end before', path: 'b' }])).toEqual({ a: '1', b: '', c: '' });
  });

  it('put a file that was left out on a frame', () => {
    const left = proposal([file('a', '1'), file('odd', null)]);
    expect(labels(left, [{ kind: 'place', path: 'odd', label: '07' }])).toEqual({ a: '1', odd: '7' });
  });

  it('leave files alone that are tied already or cannot be used', () => {
    const mixed = proposal([
      file('a', '1', { state: 'skipped' }),
      file('b', '2', { state: 'failed' }),
      file('c', '3'),
    ]);
    expect(labels(mixed, [{ kind: 'shift', steps: 1 }])).toEqual({ a: '1', b: '2', c: '4' });
  });

  it('keep the kind of version and the picture of each page', () => {
    const pages = file('strip', null, {
      state: 'done',
      frames: [
        { label: '1', page: 0, region: WHOLE, pictureId: 'strip-0' },
        { label: '2', page: 1, region: WHOLE, pictureId: 'strip-1' },
      ],
    });
    const corrected = applyCorrections(proposal([pages]), [{ kind: 'shift', steps: 1 }]);
    const [only] = corrected.ok ? corrected.value.files : [];
    expect(only?.version).toBe('rescan');
    expect(only?.frames.map(({ label, pictureId }) => [label, pictureId])).toEqual([
      ['2', 'strip-0'],
      ['3', 'strip-1'],
    ]);
  });

  it('refuse what would put a frame before 00', () => {
    expect(applyCorrections(THREE, [{ kind: 'shift', steps: -5 }])).toEqual({
      ok: false,
      reason: 'labels_end',
    });
  });

  it('refuse to count from a file that shows no frame', () => {
    const left = proposal([file('odd', null)]);
    expect(applyCorrections(left, [{ kind: 'count from', path: 'odd', label: '3' }])).toEqual({
      ok: false,
      reason: 'file_not_mapped',
    });
  });

  it('take back the questions whose files were all put right by hand', () => {
    const question = (paths: string[]) => ({ kind: 'name', text: paths.join(), paths, choices: [] });
    const asked = proposal([file('a', '1'), file('b', '2')], [question(['a']), question(['a', 'b'])]);
    const corrected = applyCorrections(asked, [{ kind: 'leave out', path: 'a' }]);
    expect(corrected.ok && corrected.value.questions.map(({ text }) => text)).toEqual(['a,b']);
    expect(corrected.ok && [...corrected.value.byHand]).toEqual(['a']);
  });
});
