import type { Scan } from '../../shared/api/methods/scan-methods.ts';
import { formatFrameRange } from '../../shared/domain/frame/frame-range.ts';
import { useArchive } from '../api/use-query.ts';
import { count, fileName, isSound, scanStateWords, sizeWords } from './roll-words.ts';
import './scan-list.css';

/** The scans of a roll with their states, what is wrong with each said in words. */
export function ScanList({ rollId, number }: { readonly rollId: number; readonly number: string }) {
  const { data: scans } = useArchive('scans.ofRoll', { rollId });
  const away = useAwayRoots();
  if (!scans || scans.length === 0) return null;
  const unsound = scans.filter((scan) => !isSound(stateOf(scan), isAway(scan.path, away))).length;
  return (
    <details className="scan-list" open={unsound > 0}>
      <summary>
        {count(scans.length, 'scan')}
        {unsound > 0 ? <span className="scan-list-unsound">, {unsound} to look after</span> : null}
      </summary>
      <div className="scan-list-table">
        <table>
          <caption className="unseen">Scans of roll {number}</caption>
          <thead>
            <tr>
              <th scope="col">File</th>
              <th scope="col">Frames</th>
              <th scope="col">State</th>
              <th scope="col">Scanned</th>
              <th scope="col">Pixels</th>
              <th scope="col">Size</th>
            </tr>
          </thead>
          <tbody>
            {scans.map((scan) => (
              <ScanRow key={scan.id} scan={scan} number={number} away={isAway(scan.path, away)} />
            ))}
          </tbody>
        </table>
      </div>
    </details>
  );
}

function ScanRow({
  scan,
  number,
  away,
}: {
  readonly scan: Scan;
  readonly number: string;
  readonly away: boolean;
}) {
  const state = stateOf(scan);
  const sound = isSound(state, away);
  const labels = scan.frames.filter(({ roll }) => roll === number).map(({ label }) => label);
  return (
    <tr>
      <td title={scan.path}>{fileName(scan.path)}</td>
      <td className="numbers">{formatFrameRange(labels)}</td>
      <td className={sound ? undefined : 'scan-list-unsound'}>
        {scanStateWords(state, away)}
        {scan.reason === null ? null : <small>{scan.reason}</small>}
        {scan.remarks.map((remark) => (
          <small key={remark}>{remark}</small>
        ))}
      </td>
      <td className="numbers">{(scan.scanned ?? '').slice(0, 10)}</td>
      <td className="numbers">
        {scan.width === null || scan.height === null ? '' : `${scan.width} × ${scan.height}`}
      </td>
      <td className="numbers">{sizeWords(scan.sizeBytes)}</td>
    </tr>
  );
}

/** The state of a scan, with that of its file. */
export function stateOf(scan: Pick<Scan, 'state' | 'missing'>): string {
  return scan.missing ? 'missing' : scan.state;
}

/** The folders of scans that are not there at present. */
export function useAwayRoots(): readonly string[] {
  const roots = useArchive('roots.list', {}).data ?? [];
  return roots.filter(({ present }) => !present).map(({ path }) => path);
}

/** Whether a scan lies in one of the folders that are away. */
export function isAway(path: string, roots: readonly string[]): boolean {
  return roots.some((root) => path.startsWith(`${root}/`) || path.startsWith(`${root}\\`));
}
