import type { Process, Step } from '../process.ts';
import type { CautionKey } from '../cautions.ts';
import type { Source } from '../source.ts';
import { fromMemory, reported } from '../source.ts';

/** The baths of E-6, in order; the washes between them are from memory. */
const E6_ORDER = reported(
  'Baths: Kodak TI2443 (single-use chemistry, Process E-6), as an excerpt; washes from memory',
);

const ECN2_ORDER = fromMemory('Order of steps as in Kodak H-24 module 7, Process ECN-2, not read');

type Row = readonly [name: string, bath: Step['bath'], cautions: readonly CautionKey[], exact?: 'exact'];

const DEVELOPER_CAUTIONS = [
  'gloves',
  'eyes',
  'ventilation',
  'hot_water',
  'children_and_food',
] as const satisfies readonly CautionKey[];
const COLOUR_CAUTIONS = [
  ...DEVELOPER_CAUTIONS,
  'sensitising_developer',
] as const satisfies readonly CautionKey[];
const BATH_CAUTIONS = ['gloves', 'eyes', 'ventilation'] as const satisfies readonly CautionKey[];
const FIXER_CAUTIONS = [
  'gloves',
  'eyes',
  'bleach_fix_fumes',
  'silver_waste',
] as const satisfies readonly CautionKey[];

function stepsWithoutNumbers(rows: readonly Row[], source: Source): readonly Step[] {
  return rows.map(([name, bath, cautions, exact], i) => ({
    key: `${i + 1}-${name.toLowerCase().replaceAll(/[^a-z]+/g, '-')}`,
    name,
    bath,
    time: { seconds: null, source },
    timing: exact ?? 'minimum',
    temperature: null,
    agitation: null,
    timePoints: [],
    push: null,
    cautions,
    note: 'Enter your maker’s time and temperature.',
  }));
}

/** E-6 as a list of steps; times and temperatures are the user's maker's. */
export const E6: Process = {
  key: 'e6',
  name: 'E-6',
  family: 'colour_reversal',
  note: 'A list of steps without numbers: copy it and enter those of your chemistry. Three-bath kits join some of them.',
  steps: stepsWithoutNumbers(
    [
      ['First developer', 'first_developer', DEVELOPER_CAUTIONS, 'exact'],
      ['Wash', 'water', []],
      ['Reversal bath', 'reversal', BATH_CAUTIONS],
      ['Colour developer', 'colour_developer', COLOUR_CAUTIONS, 'exact'],
      ['Pre-bleach', 'pre_bleach', BATH_CAUTIONS],
      ['Bleach', 'bleach', BATH_CAUTIONS],
      ['Fixer', 'fixer', FIXER_CAUTIONS],
      ['Wash', 'water', []],
      ['Final rinse', 'final_rinse', ['gloves', 'unknown_stabiliser']],
    ],
    E6_ORDER,
  ),
};

/** ECN-2 as a list of steps; times and temperatures are the user's maker's. */
export const ECN2: Process = {
  key: 'ecn2',
  name: 'ECN-2',
  family: 'motion_picture_negative',
  note: 'A list of steps without numbers: copy it and enter those of your chemistry. The black backing comes off before the developer.',
  steps: stepsWithoutNumbers(
    [
      ['Prebath', 'prebath', BATH_CAUTIONS],
      ['Rinse off the backing', 'water', ['gloves']],
      ['Developer', 'colour_developer', COLOUR_CAUTIONS, 'exact'],
      ['Stop bath', 'stop', ['acid_into_water', 'stop_bath_fumes']],
      ['Wash', 'water', []],
      ['Bleach', 'bleach', BATH_CAUTIONS],
      ['Wash', 'water', []],
      ['Fixer', 'fixer', FIXER_CAUTIONS],
      ['Wash', 'water', []],
      ['Final rinse', 'final_rinse', ['gloves', 'unknown_stabiliser']],
    ],
    ECN2_ORDER,
  ),
};
