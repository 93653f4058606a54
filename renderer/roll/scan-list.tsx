import type { Scan } from '../../shared/api/methods/scan-methods.ts';
import { formatFrameRange } from '../../shared/domain/frame/frame-range.ts';
import { useCommand } from '../api/use-command.ts';
import { useArchive } from '../api/use-query.ts';
import { Button } from '../ui/button.tsx';
import type { Done } from './done-line.tsx';
import { count, fileName, isSound, scanStateWords, sizeWords } from './roll-words.ts';
import './scan-list.css';

export interface ScanListProps {
  readonly rollId: number;
  readonly number: string;
  readonly onDone: (done: Done) => void;
}

/** The scans of a roll with their states, what is wrong with each said in words. */
export function ScanList({ rollId, number, onDone }: ScanListProps) {
  const { data: scans } = useArchive('scans.ofRoll', { rollId });
  const away = useAwayRoots();
  const untie = useCommand('scans.untie');
  if (!scans || scans.length === 0) return null;

  async function takeOff(scan: Scan): Promise<void> {
    const ended = await untie.run({ rollId, scanIds: [scan.id] });
    if (ended.ok)
      onDone({ says: `${fileName(scan.path)} is off the roll; the file stays where it is.`, steps: 1 });
  }
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
              <th scope="col">
                <span className="unseen">Wrongly tied</span>
              </th>
            </tr>
          </thead>
          <tbody>
            {scans.map((scan) => (
              <ScanRow
                key={scan.id}
                scan={scan}
                number={number}
                away={isAway(scan.path, away)}
                busy={untie.pending}
                onTakeOff={() => void takeOff(scan)}
              />
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
  busy,
  onTakeOff,
}: {
  readonly scan: Scan;
  readonly number: string;
  readonly away: boolean;
  readonly busy: boolean;
  readonly onTakeOff: () => void;
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
      <td>
        <Button
          look="quiet"
          busy={busy}
          onPress={onTakeOff}
          name={`Take ${fileName(scan.path)} off the roll`}
        >
          Take it off
        </Button>
      </td>
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
