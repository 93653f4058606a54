import { createElement, type ComponentType } from 'react';
import { BindersView } from './binders/binders-view.tsx';
import { DevelopmentView } from './development/development-view.tsx';
import { RollView } from './roll/roll-view.tsx';
import { RollsView } from './rolls/rolls-view.tsx';
import { ScansView } from './scans/scans-view.tsx';
import { SheetsView } from './sheets/sheets-view.tsx';
import { FindView } from './find/find-view.tsx';
import { WhichView } from './which/which-view.tsx';
import { CardView } from './card/card-view.tsx';
import { CastsView } from './casts/casts-view.tsx';
import type { Route } from './state/route.ts';

/** A view: what one place of the window shows. */
export interface View {
  /** Its name in the address: `rolls`. */
  readonly name: string;
  /** Its name in words, on the top line and as the title of the window. */
  readonly title: string;
  /** Whether it stands on the top line; others are reached from within. */
  readonly place: boolean;
  readonly component: ComponentType<{ readonly route: Route }>;
}

/** Every roll, or the one whose id the address has: `#/rolls/12`. */
function RollsPlace({ route }: { readonly route: Route }) {
  return createElement(route.ids.length === 0 ? RollsView : RollView, { route });
}

/** The rolls of one outing: `#/outings/3`. */
function OutingPlace({ route }: { readonly route: Route }) {
  const [outing = ''] = route.ids;
  return createElement(RollsView, { route: { view: 'rolls', ids: [], params: { ...route.params, outing } } });
}

/** Every view there is, in the order of the top line. The first is where an archive opens. */
export const VIEWS: readonly View[] = [
  { name: 'rolls', title: 'Rolls', place: true, component: RollsPlace },
  { name: 'outings', title: 'Outing', place: false, component: OutingPlace },
  { name: 'development', title: 'Development', place: true, component: DevelopmentView },
  { name: 'binders', title: 'Binders', place: true, component: BindersView },
  { name: 'scans', title: 'Scans in', place: true, component: ScansView },
  { name: 'sheets', title: 'Contact sheet', place: true, component: SheetsView },
  { name: 'find', title: 'Find', place: true, component: FindView },
  { name: 'which', title: 'Find by picture', place: true, component: WhichView },
  { name: 'card', title: 'Index card', place: false, component: CardView },
  { name: 'casts', title: 'Casts', place: true, component: CastsView },
];
