import type { BathKind } from './process.ts';
import type { Source } from './source.ts';
import { fromMemory, published, reported, ruleOfThumb } from './source.ts';

/** The usual cautions of the darkroom, by the key that steps and baths carry. */
export type CautionKey =
  | 'gloves'
  | 'eyes'
  | 'ventilation'
  | 'powders'
  | 'sensitising_developer'
  | 'bleach_fix_fumes'
  | 'stop_bath_fumes'
  | 'acid_into_water'
  | 'unknown_stabiliser'
  | 'hot_water'
  | 'children_and_food'
  | 'silver_waste';

/** One caution: what to do, why, and the source. */
export type Caution = {
  readonly key: CautionKey;
  readonly title: string;
  readonly text: string;
  readonly source: Source;
};

/** Stands under every caution: the product's own sheet and the local rules go before ours. */
export const CAUTION_RULE =
  'The safety data sheet of your product and the rules where you live go before this text.';

const MCCANN = published(
  'M. McCann, Photographic Processing Hazards, https://studylib.net/doc/7396497/black-and-white-photographic-processing',
);
const UTAH = published(
  'University of Utah, Environmental Health and Safety, https://www.ehs.utah.edu/?p=845',
);

const CAUTIONS: readonly Caution[] = [
  {
    key: 'gloves',
    title: 'Wear gloves',
    text: 'Developers are often strongly alkaline and can burn or cause an allergy. Rinse splashes off at once.',
    source: MCCANN,
  },
  {
    key: 'eyes',
    title: 'Cover your eyes',
    text: 'Wear goggles when you pour or mix. A splash in the eye: rinse for at least 15 minutes and get medical help.',
    source: MCCANN,
  },
  {
    key: 'ventilation',
    title: 'Let air through',
    text: 'Keep fresh air moving. Colour baths need more of it than black-and-white.',
    source: UTAH,
  },
  {
    key: 'powders',
    title: 'Do not breathe the powder',
    text: 'Use liquids where you can. Mix powders under exhaust, in a glove box, or with a respirator made for toxic dust.',
    source: MCCANN,
  },
  {
    key: 'sensitising_developer',
    title: 'Colour developer can make you allergic for life',
    text: 'Its developing agents irritate the skin and can sensitise it. Gloves and goggles, no bare hands in the bath.',
    source: UTAH,
  },
  {
    key: 'bleach_fix_fumes',
    title: 'Bleach-fix and fixer give off fumes',
    text: 'They can give off sulphur dioxide, more so with acid or heat, and ammonia with alkali. Keep them apart and the air moving.',
    source: published(
      'Thiosulfates: New South Wales Department of Education, https://ecmjsp.education.nsw.gov.au/ecmjsp/chemicals/?chemalpha=T&chemid=1678&mode=viewchemares ; ammonium thiosulphate: ABC of Safety in the Biological Sciences, https://www.ihcworld.com/royellis/ABCSafe/chemicals/ilford-fixer.htm',
    ),
  },
  {
    key: 'stop_bath_fumes',
    title: 'Stop bath gives off fumes',
    text: 'Developer carried into an acid stop bath releases sulphur dioxide. Do not lean over it.',
    source: published(
      'Kodak H-24 module 9, Table 9-4, footnote on the stop tank, https://manualsdump.com/en/manuals/kodak-module_9/208993/12',
    ),
  },
  {
    key: 'acid_into_water',
    title: 'Acid into water',
    text: 'Always add acid to water, never water to acid. Glacial acetic acid is corrosive: buy it diluted.',
    source: published(
      'M. McCann (as above) for the order; US Army SS0513 p. 35 for glacial acetic acid, https://armycommunications.tpub.com/SS0513/SS05130037.htm',
    ),
  },
  {
    key: 'unknown_stabiliser',
    title: 'Treat an unknown stabiliser as hazardous',
    text: 'Older ones held formaldehyde. Do not breathe over the bath, wear gloves, read the label.',
    source: fromMemory('Formaldehyde in older C-41 stabilisers'),
  },
  {
    key: 'hot_water',
    title: 'Hot water',
    text: 'Carry it in a firm vessel, keep it away from mains leads and heaters that are not made for water.',
    source: ruleOfThumb('Care with hot water baths'),
  },
  {
    key: 'children_and_food',
    title: 'Away from children, animals and food',
    text: 'Swallowing concentrate has killed. Label bottles, lock them away, never use kitchen vessels again for food.',
    source: MCCANN,
  },
  {
    key: 'silver_waste',
    title: 'Fixer is silver waste',
    text: 'Used fixer and bleach-fix hold thousands of parts per million of silver. Take them to hazardous waste collection or silver recovery; not down the drain, never to a septic tank.',
    source: reported(
      'US EPA, RCRA in Focus: Photo Processing, EPA530-K-99-002 (limit 5 mg/l in US law), https://docslib.org/doc/7398050/photo-processing ; 3000 to 5000 ppm in used fixer: http://www.pneac.org/listserv/printech/0004/0073.html ; septic: MassDEP, https://nedt.org/?p=5147',
    ),
  },
];

const DEVELOPER: readonly CautionKey[] = ['gloves', 'eyes', 'ventilation', 'children_and_food'];
const OTHER_BATH: readonly CautionKey[] = ['gloves', 'eyes', 'ventilation'];
const FIXING: readonly CautionKey[] = ['gloves', 'eyes', 'bleach_fix_fumes', 'silver_waste'];
const LAST_BATH: readonly CautionKey[] = ['gloves', 'unknown_stabiliser'];

const OF_BATH: Readonly<Record<BathKind, readonly CautionKey[]>> = {
  water: [],
  prebath: OTHER_BATH,
  // A developer may be one for colour; nobody says so of a step that was added by hand.
  developer: [...DEVELOPER, 'sensitising_developer'],
  first_developer: DEVELOPER,
  colour_developer: [...DEVELOPER, 'sensitising_developer'],
  stop: ['acid_into_water', 'stop_bath_fumes'],
  reversal: OTHER_BATH,
  pre_bleach: OTHER_BATH,
  bleach: OTHER_BATH,
  fixer: FIXING,
  bleach_fix: FIXING,
  wetting_agent: ['gloves'],
  stabiliser: LAST_BATH,
  final_rinse: LAST_BATH,
};

/** The usual cautions of a bath, for a step that comes without its own. */
export function usualCautions(bath: BathKind): readonly CautionKey[] {
  return OF_BATH[bath];
}

/** What to mind when a bath is mixed: what its use asks, and what concentrates and powders ask beyond it. */
export function mixingCautions(bath: BathKind): readonly CautionKey[] {
  return [
    'gloves',
    'eyes',
    'ventilation',
    'powders',
    'acid_into_water',
    'children_and_food',
    ...OF_BATH[bath],
  ];
}

/** The cautions for these keys, each once, in the order of the list of cautions. */
export function findCautions(keys: Iterable<CautionKey>): readonly Caution[] {
  const wanted = new Set(keys);
  return CAUTIONS.filter((caution) => wanted.has(caution.key));
}

/** The cautions for these keys that were not yet shown in this session, so that none stands in the way twice. */
export function cautionsStillToShow(
  keys: Iterable<CautionKey>,
  shownBefore: Iterable<CautionKey>,
): readonly Caution[] {
  const before = new Set(shownBefore);
  return findCautions(keys).filter((caution) => !before.has(caution.key));
}
