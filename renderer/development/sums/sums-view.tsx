import { createElement, type ComponentType } from 'react';
import { RouteLink } from '../../state/view-state.tsx';
import { DevelopmentPlaces } from '../places.tsx';
import { DilutionSum } from './dilution-sum.tsx';
import { DriftSum } from './drift-sum.tsx';
import { FilmSum } from './film-sum.tsx';
import { RunSum } from './run-sum.tsx';
import { TimeSum } from './time-sum.tsx';
import { VolumeSum } from './volume-sum.tsx';
import { WashSum } from './wash-sum.tsx';
import { WaterSum } from './water-sum.tsx';
import './sums.css';

interface SumPlace {
  readonly at: string;
  readonly title: string;
  readonly sum: ComponentType;
}

const FIRST: SumPlace = { at: 'time', title: 'Developer time', sum: TimeSum };

const SUMS: readonly SumPlace[] = [
  FIRST,
  { at: 'run', title: 'What a run amounted to', sum: RunSum },
  { at: 'dilution', title: 'Dilution', sum: DilutionSum },
  { at: 'water', title: 'Hot and cold water', sum: WaterSum },
  { at: 'drift', title: 'Drift of a tank', sum: DriftSum },
  { at: 'volume', title: 'Volume', sum: VolumeSum },
  { at: 'film', title: 'Film of a load', sum: FilmSum },
  { at: 'wash', title: 'Wash', sum: WashSum },
];

/** The darkroom's sums, each with its working (`#/development/sums/drift`). */
export function SumsView({ at }: { readonly at: string | undefined }) {
  const place = SUMS.find((each) => each.at === at) ?? FIRST;
  return (
    <div className="sums">
      <DevelopmentPlaces at="sums" />
      <nav className="sums-list" aria-label="Sums">
        {SUMS.map((each) => (
          <RouteLink
            key={each.at}
            to={{ view: 'development', ids: ['sums', each.at] }}
            aria-current={each.at === place.at ? 'page' : undefined}
          >
            {each.title}
          </RouteLink>
        ))}
      </nav>
      {createElement(place.sum)}
    </div>
  );
}
