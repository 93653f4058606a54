import { C41_DEVELOPER_C } from '../meant-temperature.ts';
import type { Agitation } from '../agitation.ts';
import type { Process, Step, StepTemperature } from '../process.ts';
import { C41_PUSH } from '../push-pull.ts';
import { fromMemory, published, reported, ruleOfThumb } from '../source.ts';

/** The developer's time and temperature. */
export const Z131 = published(
  'Kodak Z-131, section 4, Table 4-1, https://docslib.org/doc/1537625/4-minilab-processors',
);

const LONG_CYCLE = fromMemory('The long C-41 cycle for tanks; minimum times');

/** 75 to 105 °F for everything after the developer. */
const AFTER_DEVELOPER: StepTemperature = {
  aimC: null,
  lowC: 24,
  highC: 41,
  source: fromMemory('24 to 41 °C after the developer'),
};

/** First half minute without rest in every solution, then by custom. */
export const COLOUR_TANK_AGITATION: Agitation = {
  scheme: 'intermittent',
  firstSeconds: 30,
  everySeconds: 30,
  forSeconds: 5,
  turns: 4,
  source: ruleOfThumb(
    'First 30 s: US Army SS0514, https://armycommunications.tpub.com/SS0514/SS05140049.htm ; then 4 turns every 30 s: common practice',
  ),
};

/** Changes of water do the work of a wash. */
export const NO_SCHEME: Agitation = {
  scheme: 'none',
  source: ruleOfThumb('Running water or changes of water'),
};

const STEP = {
  timing: 'minimum',
  temperature: AFTER_DEVELOPER,
  timePoints: [],
  push: null,
  note: null,
} as const satisfies Partial<Step>;

/** C-41 as published: separate bleach and fixer, washes between. */
export const C41_AS_PUBLISHED: Process = {
  key: 'c41-as-published',
  name: 'C-41 as published',
  family: 'colour_negative',
  note: 'Order: https://de.wiki.li/C-41. Only developer time and temperature are critical; bleach and fixer work to completion.',
  steps: [
    {
      key: 'developer',
      name: 'Developer',
      bath: 'developer',
      time: { seconds: 3 * 60 + 15, source: Z131 },
      timing: 'exact',
      temperature: {
        aimC: C41_DEVELOPER_C,
        lowC: C41_DEVELOPER_C - 0.15,
        highC: C41_DEVELOPER_C + 0.15,
        source: Z131,
      },
      agitation: COLOUR_TANK_AGITATION,
      timePoints: [],
      push: C41_PUSH,
      cautions: ['gloves', 'eyes', 'ventilation', 'sensitising_developer', 'hot_water', 'children_and_food'],
      note: null,
    },
    {
      ...STEP,
      key: 'bleach',
      name: 'Bleach',
      bath: 'bleach',
      time: { seconds: 6 * 60 + 30, source: LONG_CYCLE },
      agitation: COLOUR_TANK_AGITATION,
      cautions: ['gloves', 'eyes', 'ventilation'],
      note: 'Bleach needs air: about 30 min of aeration before use (US Army SS0514 p. 2-15).',
    },
    {
      ...STEP,
      key: 'wash-after-bleach',
      name: 'Wash',
      bath: 'water',
      time: { seconds: 3 * 60 + 15, source: LONG_CYCLE },
      agitation: NO_SCHEME,
      cautions: [],
    },
    {
      ...STEP,
      key: 'fixer',
      name: 'Fixer',
      bath: 'fixer',
      time: { seconds: 6 * 60 + 30, source: LONG_CYCLE },
      agitation: COLOUR_TANK_AGITATION,
      cautions: ['gloves', 'eyes', 'bleach_fix_fumes', 'silver_waste'],
    },
    {
      ...STEP,
      key: 'final-wash',
      name: 'Wash',
      bath: 'water',
      time: { seconds: 3 * 60 + 15, source: LONG_CYCLE },
      agitation: NO_SCHEME,
      cautions: [],
    },
    {
      ...STEP,
      key: 'final-rinse',
      name: 'Final rinse',
      bath: 'final_rinse',
      time: { seconds: 60 + 30, source: LONG_CYCLE },
      agitation: null,
      cautions: ['gloves', 'unknown_stabiliser'],
      note: reported('Named stabiliser in older texts, https://de.wiki.li/C-41').text,
    },
  ],
};
