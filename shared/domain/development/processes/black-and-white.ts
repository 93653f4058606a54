import type { Agitation } from '../agitation.ts';
import type { Process, Step, StepTemperature } from '../process.ts';
import { BLACK_AND_WHITE_PUSH } from '../push-pull.ts';
import { fromMemory, reported, ruleOfThumb, yours } from '../source.ts';
import { NO_SCHEME } from './c41-as-published.ts';

/** Half a minute without rest, then 5 s once every minute. */
const NAVY_AGITATION: Agitation = {
  scheme: 'intermittent',
  firstSeconds: 30,
  everySeconds: 60,
  forSeconds: 5,
  turns: null,
  source: {
    kind: 'published',
    text: 'US Navy NAVEDTRA 14209, https://photographytraining.tpub.com/14209/css/Tray-Processing-258.htm',
  },
};

/** Successive baths within 2.8 °C of each other, else the gelatine may wrinkle. */
const NEAR_DEVELOPER: StepTemperature = {
  aimC: null,
  lowC: 20 - 2.8,
  highC: 20 + 2.8,
  source: {
    kind: 'published',
    text: 'Reticulation beyond 5 °F between baths, US Army Ss05098, https://armycommunications.tpub.com/Ss05098/Ss050980090.htm',
  },
};

const STEP = {
  timing: 'minimum',
  temperature: NEAR_DEVELOPER,
  timePoints: [],
  push: null,
  note: null,
} as const satisfies Partial<Step>;

/** Black-and-white in general; the developer's time comes from the film's and developer's own table. */
export const BLACK_AND_WHITE: Process = {
  key: 'black-and-white',
  name: 'Black-and-white',
  family: 'black_and_white',
  note: null,
  steps: [
    {
      key: 'developer',
      name: 'Developer',
      bath: 'developer',
      time: { seconds: null, source: yours('Your film and developer at your dilution') },
      timing: 'exact',
      temperature: {
        aimC: 20,
        lowC: 19.5,
        highC: 20.5,
        source: ruleOfThumb(
          '20 °C: US Navy NAVEDTRA 14209 p. 10-15, https://photographytraining.tpub.com/14209/css/Processing-Methods-257.htm ; half a degree either way: common practice',
        ),
      },
      agitation: NAVY_AGITATION,
      timePoints: [],
      push: BLACK_AND_WHITE_PUSH,
      cautions: ['gloves', 'eyes', 'ventilation', 'powders', 'children_and_food'],
      note: null,
    },
    {
      ...STEP,
      key: 'stop',
      name: 'Stop bath',
      bath: 'stop',
      time: { seconds: 30, source: reported('https://royfleming.co.uk/photo_800624.html') },
      agitation: { scheme: 'continuous', source: ruleOfThumb('Moved all the time, it is short') },
      cautions: ['acid_into_water', 'stop_bath_fumes'],
    },
    {
      ...STEP,
      key: 'fixer',
      name: 'Fixer',
      bath: 'fixer',
      time: { seconds: 5 * 60, source: fromMemory('2 to 5 min for rapid fixer, the longer taken') },
      agitation: NAVY_AGITATION,
      cautions: ['gloves', 'eyes', 'bleach_fix_fumes', 'silver_waste'],
      note: 'At least twice the clearing time of a scrap of the same film.',
    },
    {
      ...STEP,
      key: 'wash',
      name: 'Wash',
      bath: 'water',
      time: {
        seconds: 4 * 60,
        source: reported(
          'Three fills turned over 5, 10 and 20 times, about 4 min, https://jordensenior-site.pages.dev/notebook/017-029-sustainability/wash-method-card',
        ),
      },
      agitation: NO_SCHEME,
      cautions: [],
    },
    {
      ...STEP,
      key: 'wetting-agent',
      name: 'Wetting agent',
      bath: 'wetting_agent',
      time: { seconds: 60, source: ruleOfThumb('About a minute') },
      agitation: null,
      cautions: [],
    },
  ],
};
