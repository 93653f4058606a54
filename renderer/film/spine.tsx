import './spine.css';

export interface SpineProps {
  /** The binder's name; a number of up to three characters stands large at its head. */
  readonly name: string;
  /** Turned along the spine, up to two lines. */
  readonly lines: readonly string[];
  /** From 0 to 1, or null where it is not known. */
  readonly fullness: number | null;
  /** How thick it is, px; its height follows from the shelf. */
  readonly widthPx?: number;
  /** Pulled out. */
  readonly open?: boolean;
  /** Not there yet: dashed and leaning. */
  readonly absent?: boolean;
  /** For a shelf that only points: no lines, no bar. */
  readonly small?: boolean;
}

/** The back of a binder on the shelf: its label, how full it is, the ring to pull it by. For the eye only. */
export function Spine(props: SpineProps) {
  const { name, lines, fullness, widthPx = 46, open = false, absent = false, small = false } = props;
  const classes = [
    'spine',
    open ? 'spine-open' : '',
    absent ? 'spine-absent' : '',
    small ? 'spine-small' : '',
  ];
  const bare = name.replace(/^binder\s+/i, '');
  const short = bare.length <= 4;
  const turned = short ? lines : [bare, ...lines].slice(0, 2);
  return (
    <span
      className={classes.filter((part) => part !== '').join(' ')}
      style={{ width: widthPx }}
      aria-hidden="true"
    >
      <span className="spine-label">
        <span className="spine-number numbers">{short ? bare : ''}</span>
        {small && short ? null : (
          <span className="spine-lines">
            {turned.map((line, index) => (
              // The lines of a label are only their text.
              // oxlint-disable-next-line react/no-array-index-key
              <span key={index}>{line}</span>
            ))}
          </span>
        )}
      </span>
      {small || fullness === null || absent ? null : (
        <span className="spine-bar">
          <span style={{ width: `${Math.round(100 * Math.min(1, Math.max(0, fullness)))}%` }} />
        </span>
      )}
      {absent ? null : <span className="spine-ring" />}
    </span>
  );
}
