import type { Frame, FrameVersion } from '../../shared/api/methods/film-methods.ts';
import { useCommand } from '../api/use-command.ts';
import { useArchive } from '../api/use-query.ts';
import { Button } from '../ui/button.tsx';
import type { Done } from './done-line.tsx';
import { count, fileName, isSound, scanStateWords, sizeWords } from './roll-words.ts';
import { isAway, stateOf, useAwayRoots } from './scan-list.tsx';

export interface VersionListProps {
  readonly frame: Pick<Frame, 'id' | 'rollId' | 'label' | 'versions'>;
  readonly shown: number | null;
  readonly onShow: (frameScanId: number) => void;
  readonly onDone: (done: Done) => void;
}

/** The versions of a frame: which one is looked at, which one stands for the frame, and what is known of its scan. */
export function VersionList({ frame, shown, onShow, onDone }: VersionListProps) {
  const { versions } = frame;
  const choose = useCommand('frames.chooseBest');
  const untie = useCommand('scans.untie');
  const away = useAwayRoots();
  if (versions.length === 0) return <p className="version-none">No scan shows this frame yet.</p>;

  async function chooseBest(version: FrameVersion): Promise<void> {
    const ended = await choose.run({ frameScanId: version.frameScanId });
    if (ended.ok) onDone({ says: `${fileName(version.path)} stands for the frame.`, steps: 1 });
  }
  async function takeOff(version: FrameVersion): Promise<void> {
    const ended = await untie.run({
      rollId: frame.rollId,
      scanIds: [version.scanId],
      frameId: frame.id,
    });
    if (ended.ok)
      onDone({
        says: `${fileName(version.path)} is off frame ${frame.label}; the file stays where it is.`,
        steps: 1,
      });
  }
  return (
    <section aria-label="Versions" className="version-list">
      <h3>{count(versions.length, 'version')}</h3>
      <ul>
        {versions.map((version) => {
          const here = version.frameScanId === shown;
          const off = isAway(version.path, away);
          return (
            <li key={version.frameScanId} className={here ? 'version-here' : undefined}>
              <button
                type="button"
                className="version-name"
                aria-pressed={here}
                title={version.path}
                onClick={() => onShow(version.frameScanId)}
              >
                {fileName(version.path)}
              </button>
              <span className="version-words">
                {[version.version, pixelWords(version)].filter((part) => part !== '').join(', ')}
                {isSound(version.state, off) ? null : (
                  <span className="version-unsound"> {scanStateWords(version.state, off)}</span>
                )}
              </span>
              {version.best ? (
                <span className="version-best">stands for the frame</span>
              ) : (
                <Button
                  look="quiet"
                  busy={choose.pending}
                  onPress={() => void chooseBest(version)}
                  name={`Let ${fileName(version.path)} stand for the frame`}
                >
                  Let it stand for the frame
                </Button>
              )}
              <Button
                look="quiet"
                busy={untie.pending}
                onPress={() => void takeOff(version)}
                name={`Take ${fileName(version.path)} off the frame`}
              >
                Take it off the frame
              </Button>
              {here ? <ScanFacts scanId={version.scanId} reason={version.reason} /> : null}
            </li>
          );
        })}
      </ul>
    </section>
  );
}

function pixelWords({ width, height }: FrameVersion): string {
  return width === null || height === null ? '' : `${width} × ${height}`;
}

/** What is known of a scan: where it is, how it is, when it was made. */
function ScanFacts({ scanId, reason }: { readonly scanId: number; readonly reason: string }) {
  const { data: scan } = useArchive('scans.get', { id: scanId });
  const away = useAwayRoots();
  if (!scan) return <div aria-busy="true" />;
  const facts: readonly (readonly [string, string])[] = [
    ['File', scan.path],
    ['State', scanStateWords(stateOf(scan), isAway(scan.path, away))],
    ['Because', scan.reason ?? ''],
    ['Captured', (scan.captured ?? '').replace('T', ' ').slice(0, 16)],
    ['Scanned', (scan.scanned ?? '').replace('T', ' ').slice(0, 16)],
    ['Size', `${sizeWords(scan.sizeBytes)}, ${scan.kind}${scan.infrared ? ', with infrared' : ''}`],
    ['Profile', scan.profile ?? ''],
    ['Why here', reason],
  ];
  return (
    <dl className="scan-facts">
      {facts
        .filter(([, value]) => value !== '')
        .map(([label, value]) => (
          <div key={label}>
            <dt>{label}</dt>
            <dd>{value}</dd>
          </div>
        ))}
      {scan.remarks.length === 0 ? null : (
        <div>
          <dt>Remarks</dt>
          <dd>{scan.remarks.join('; ')}</dd>
        </div>
      )}
    </dl>
  );
}
