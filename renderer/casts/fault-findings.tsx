import type { Causes } from '../../shared/api/methods/causes-methods.ts';
import { formatRoute } from '../state/route.ts';

/** Findings that do not stand are shown up to this many: enough to see that they were looked at. Our choice. */
const SHOWN_WEAK = 4;

/** Faults counted by everything the log tells rolls apart by, in words that name no cause. */
export function FaultFindings({ faults }: { readonly faults: Causes['faults'] }) {
  const standing = faults.filter(({ stands }) => stands);
  const weak = faults.filter(({ stands }) => !stands);
  const shown = [...weak.filter(({ enough }) => enough), ...weak.filter(({ enough }) => !enough)];
  return (
    <section className="faults" aria-label="Faults">
      <h2>Faults, by camera and its repairs, cassette, holder, bath, scanner, lab and stock</h2>
      {faults.length === 0 ? (
        <p className="casts-quiet">
          Nothing to compare: no fault is noted on frames, or the log tells the rolls apart by nothing.
        </p>
      ) : null}
      {standing.length === 0 && weak.length > 0 ? (
        <p>No fault keeps to one of them more than chance would.</p>
      ) : null}
      <ul>
        {[...standing, ...shown.slice(0, SHOWN_WEAK)].map((finding) => (
          <li
            key={`${finding.fault} ${finding.factor}`}
            className={finding.stands ? 'faults-stands' : 'casts-quiet'}
          >
            <p>{finding.say}</p>
            {finding.stands ? <RollLinks rolls={finding.there} /> : null}
          </li>
        ))}
      </ul>
      {weak.length > SHOWN_WEAK ? (
        <details className="faults-rest">
          <summary>{weak.length - SHOWN_WEAK} more comparisons show nothing either.</summary>
          <ul>
            {shown.slice(SHOWN_WEAK).map((finding) => (
              <li key={`${finding.fault} ${finding.factor}`} className="casts-quiet">
                {finding.say}
              </li>
            ))}
          </ul>
        </details>
      ) : null}
    </section>
  );
}

function RollLinks({ rolls }: { readonly rolls: Causes['faults'][number]['there'] }) {
  return (
    <p className="numbers faults-rolls">
      {rolls.map(({ id, name }) => (
        <a key={id} href={formatRoute({ view: 'rolls', ids: [String(id)], params: {} })}>
          {name}
        </a>
      ))}
    </p>
  );
}
