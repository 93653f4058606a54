import type { Output } from '../../shared/api/contract.ts';

/** Findings that do not stand are shown up to this many: enough to see that they were looked at. Our choice. */
const SHOWN_WEAK = 4;

/** Faults counted by camera, bath, scanner, lab and stock, in words that name no cause. */
export function FaultFindings({ faults }: { readonly faults: Output<'colour.causes'>['faults'] }) {
  const standing = faults.filter(({ stands }) => stands);
  const weak = faults.filter(({ stands }) => !stands);
  return (
    <section className="faults" aria-label="Faults">
      <h2>Faults, counted by camera, bath, scanner, lab and stock</h2>
      {faults.length === 0 ? (
        <p className="casts-quiet">
          Nothing to compare: no fault is noted on frames, or all rolls have the same camera, bath, scanner
          and lab.
        </p>
      ) : null}
      {standing.length === 0 && weak.length > 0 ? (
        <p>No fault keeps to one of them more than chance would.</p>
      ) : null}
      <ul>
        {[...standing, ...weak.slice(0, SHOWN_WEAK)].map((finding) => (
          <li
            key={`${finding.fault} ${finding.factor}`}
            className={finding.stands ? 'faults-stands' : 'casts-quiet'}
          >
            {finding.say}
          </li>
        ))}
      </ul>
      {weak.length > SHOWN_WEAK ? (
        <p className="casts-quiet">{weak.length - SHOWN_WEAK} more comparisons show nothing either.</p>
      ) : null}
    </section>
  );
}
