import './progress.css';

export interface ProgressProps {
  /** What is being done: “Reading scans”. */
  readonly label: string;
  readonly done: number;
  /** How many in all; null while that is not known. */
  readonly total: number | null;
  /** How far, how fast and how long yet, in words. */
  readonly text: string;
}

/** How far something is, as a strip that fills from the left. Without a total it shows only the words. */
export function Progress({ label, done, total, text }: ProgressProps) {
  const share = total === null || total === 0 ? null : Math.min(done / total, 1);
  return (
    <div className="progress">
      <div
        role="progressbar"
        aria-label={label}
        aria-valuemin={0}
        aria-valuemax={total ?? undefined}
        aria-valuenow={share === null ? undefined : done}
        aria-valuetext={text}
        className="progress-strip"
      >
        <div className="progress-done" style={{ width: `${(share ?? 0) * 100}%` }} />
      </div>
      <span className="numbers progress-text">{text}</span>
    </div>
  );
}
