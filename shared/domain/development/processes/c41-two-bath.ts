import { C41_DEVELOPER_C } from '../meant-temperature.ts';
import type { Process, Step, StepTemperature } from '../process.ts';
import { C41_PUSH } from '../push-pull.ts';
import { fromMemory, reported, ruleOfThumb } from '../source.ts';
import { COLOUR_TANK_AGITATION, NO_SCHEME, Z131 } from './c41-as-published.ts';

/** A powder kit's sheet as a user copied it; a second copy gives 2:00 for the wash. */
const KIT = reported(
  'A powder kit’s times, https://unclejonesyscameras.blogspot.com/2018/05/ ; wash 2:00 in https://jasonscottphotoblog.com/2013/08',
);

const TABLE = fromMemory('A two-bath maker’s table; enter your own kit’s');

/** 95 to 105 °F. */
const WARM: StepTemperature = { aimC: null, lowC: 35, highC: 41, source: KIT };

const STEP = {
  timing: 'minimum',
  temperature: WARM,
  timePoints: [],
  push: null,
  note: null,
} as const satisfies Partial<Step>;

/** C-41 at home in two baths and a stabiliser. */
export const C41_TWO_BATH: Process = {
  key: 'c41-two-bath',
  name: 'C-41 in two baths',
  family: 'colour_negative',
  note: 'Kits differ: copy this process and enter the times of yours. The kit behind the other steps develops 3:30 at 38.9 °C.',
  steps: [
    {
      ...STEP,
      key: 'pre-soak',
      name: 'Pre-soak',
      bath: 'water',
      time: { seconds: 60, source: KIT },
      agitation: null,
      cautions: ['hot_water'],
      note: 'Warms tank and film; 38.9 °C in the kit’s sheet.',
    },
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
      timePoints: [
        { celsius: 25, seconds: 13 * 60, source: TABLE },
        { celsius: 30, seconds: 8 * 60, source: TABLE },
        { celsius: 45, seconds: 2 * 60, source: TABLE },
      ],
      push: C41_PUSH,
      cautions: ['gloves', 'eyes', 'ventilation', 'sensitising_developer', 'hot_water', 'children_and_food'],
      note: null,
    },
    {
      ...STEP,
      key: 'bleach-fix',
      name: 'Bleach-fix',
      bath: 'bleach_fix',
      time: { seconds: 6 * 60 + 30, source: KIT },
      agitation: COLOUR_TANK_AGITATION,
      cautions: ['gloves', 'eyes', 'bleach_fix_fumes', 'silver_waste'],
      note: 'It can build up pressure: open the tank now and then (common practice).',
    },
    {
      ...STEP,
      key: 'wash',
      name: 'Wash',
      bath: 'water',
      time: { seconds: 3 * 60, source: KIT },
      agitation: NO_SCHEME,
      cautions: [],
    },
    {
      ...STEP,
      key: 'stabiliser',
      name: 'Stabiliser',
      bath: 'stabiliser',
      time: { seconds: 60, source: KIT },
      temperature: { aimC: null, lowC: null, highC: null, source: KIT },
      agitation: { scheme: 'none', source: ruleOfThumb('Shaking makes foam, and foam leaves marks') },
      cautions: ['gloves', 'unknown_stabiliser'],
    },
  ],
};
