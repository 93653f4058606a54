import type { Route } from '../state/route.ts';
import { DevelopmentLog } from './development-log.tsx';
import { DevelopmentOverview } from './development-overview.tsx';
import { PlanDevelopment } from './plan-development.tsx';
import { ProcessesView } from './processes/processes-view.tsx';
import { SumsView } from './sums/sums-view.tsx';
import { RunSheet } from './run/run-sheet.tsx';
import './development-view.css';

/**
 * Developments and baths (`#/development`), a plan (`/plan`), processes (`/processes/e6`), sums (`/sums/drift`), one development (`/12`), its run
 * sheet (`/12/run`).
 */
export function DevelopmentView({ route }: { readonly route: Route }) {
  const [first, second] = route.ids;
  if (first === 'plan') return <PlanDevelopment params={route.params} />;
  if (first === 'processes') {
    return <ProcessesView shown={second} editing={route.params['edit'] !== undefined} />;
  }
  if (first === 'sums') return <SumsView at={second} />;
  const id = Number(first);
  if (!Number.isInteger(id) || id < 1) return <DevelopmentOverview />;
  return second === 'run' ? <RunSheet key={id} id={id} /> : <DevelopmentLog key={id} id={id} />;
}
