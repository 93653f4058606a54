import type { FrameOrigin } from '../../shared/api/methods/origin-methods.ts';
import { describeOrigin } from '../../shared/text/describe-origin.ts';
import type { OriginKey } from '../../shared/text/origin-fact.ts';
import { ToleranceLine } from '../film/tolerance-line.tsx';
import { RouteLink, type GivenRoute } from '../state/view-state.tsx';

/** The lines of the card; those that speak of a thing lead to it. */
export function OriginFacts({ origin }: { readonly origin: FrameOrigin }) {
  return (
    <dl className="origin-facts">
      {describeOrigin(origin).map(({ key, label, value, details, known }) => {
        const to = known ? leadsTo(key, origin) : null;
        return (
          <div key={key} className={known ? undefined : 'origin-unknown'}>
            <dt>{label}</dt>
            <dd>
              {to === null ? <span>{value}</span> : <RouteLink to={to}>{value}</RouteLink>}
              {details.length > 0 ? <small>{details.join(', ')}</small> : null}
              {key === 'developer' ? <Temperature origin={origin} /> : null}
            </dd>
          </div>
        );
      })}
    </dl>
  );
}

function leadsTo(key: OriginKey, origin: FrameOrigin): GivenRoute | null {
  const { frame, roll, outing, development } = origin;
  const params = { frame: String(frame.id) };
  if (key === 'roll') return { view: 'rolls', ids: [roll.id], params };
  if (key === 'outing' && outing) return { view: 'outings', ids: [outing.id] };
  if (key === 'development' && development) return { view: 'development', ids: [development.id] };
  if (key === 'lies' && frame.lies) {
    return { view: 'binders', ids: [frame.lies.binderId, frame.lies.pageId], params };
  }
  return null;
}

/** ± in which the developer of C-41 is held, °C. Source: Kodak Z-131, Table 4-1: 37.8 ± 0.15 °C. Others have no band. */
const C41_EITHER_WAY_C = 0.15;

function Temperature({ origin }: { readonly origin: FrameOrigin }) {
  const { development } = origin;
  const measured = development?.developerTempC ?? null;
  const meant = development?.developerNominalTempC ?? null;
  if (development?.process !== 'c41' || measured === null || meant === null) return null;
  return (
    <ToleranceLine
      label={`Measured ${measured.toFixed(1)} °C, meant ${meant.toFixed(1)} °C`}
      meant={meant}
      eitherWay={C41_EITHER_WAY_C}
      measured={measured}
      reach={1.2}
    />
  );
}
