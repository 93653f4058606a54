import { describe, expect, it } from 'vitest';
import { findCautions } from '../../../../shared/domain/development/cautions.ts';
import type { Process, Step } from '../../../../shared/domain/development/process.ts';
import { checkProcess, stepsWithoutTime } from '../../../../shared/domain/development/process.ts';
import { C41_AS_PUBLISHED } from '../../../../shared/domain/development/processes/c41-as-published.ts';
import { C41_TWO_BATH } from '../../../../shared/domain/development/processes/c41-two-bath.ts';
import { SHIPPED_PROCESSES } from '../../../../shared/domain/development/processes/shipped.ts';
import { yours } from '../../../../shared/domain/development/source.ts';
import { findTimeCurve } from '../../../../shared/domain/development/time-curve.ts';

function findStep(process: Process, key: string): Step {
  const step = process.steps.find((candidate) => candidate.key === key);
  if (step === undefined) throw new Error(key);
  return step;
}

function edited(change: Partial<Step>): Process {
  const [first, ...rest] = C41_AS_PUBLISHED.steps;
  if (first === undefined) throw new Error('no step');
  return { ...C41_AS_PUBLISHED, steps: [{ ...first, ...change }, ...rest] };
}

const fault = (process: Process) => {
  const answer = checkProcess(process);
  return answer.ok ? null : answer.reason;
};

const mine = yours('test');

describe('shipped processes', () => {
  it.each(SHIPPED_PROCESSES.map((process) => [process.key, process] as const))(
    '%s can be used',
    (_, process) => {
      expect(fault(process)).toBeNull();
    },
  );

  it('have keys of their own', () => {
    const keys = SHIPPED_PROCESSES.map((process) => process.key);
    expect(new Set(keys).size).toBe(keys.length);
  });

  it('survive being kept as JSON', () => {
    expect(JSON.parse(JSON.stringify(SHIPPED_PROCESSES))).toEqual(SHIPPED_PROCESSES);
  });

  it('name a text for every caution they ask for', () => {
    for (const process of SHIPPED_PROCESSES) {
      for (const step of process.steps)
        expect(findCautions(step.cautions)).toHaveLength(step.cautions.length);
    }
  });

  it('warn of the sensitising colour developer wherever there is one', () => {
    const developers = SHIPPED_PROCESSES.filter((process) => process.family !== 'black_and_white').flatMap(
      (process) =>
        process.steps.filter((step) => step.bath === 'developer' || step.bath === 'colour_developer'),
    );
    expect(developers).toHaveLength(4);
    for (const step of developers) expect(step.cautions).toContain('sensitising_developer');
  });

  it('develop C-41 for 3:15 at 37.8 ± 0.15 °C', () => {
    // Kodak Z-131, section 4, Table 4-1.
    for (const process of [C41_AS_PUBLISHED, C41_TWO_BATH]) {
      const { time, temperature, timing } = findStep(process, 'developer');
      expect([time.seconds, time.source.kind, timing]).toEqual([195, 'published', 'exact']);
      expect(temperature?.aimC).toBe(37.8);
      expect(temperature?.lowC).toBeCloseTo(37.65, 9);
      expect(temperature?.highC).toBeCloseTo(37.95, 9);
    }
  });

  it('take C-41 through bleach, wash, fixer, wash and rinse', () => {
    // Order: https://de.wiki.li/C-41.
    expect(C41_AS_PUBLISHED.steps.map((step) => step.bath)).toEqual([
      'developer',
      'bleach',
      'water',
      'fixer',
      'water',
      'final_rinse',
    ]);
  });

  it('mark the times after the C-41 developer as from memory', () => {
    const kinds = C41_AS_PUBLISHED.steps.slice(1).map((step) => step.time.source.kind);
    expect(new Set(kinds)).toEqual(new Set(['from memory']));
  });

  it('take the two-bath times from the copied sheet of a kit', () => {
    // https://unclejonesyscameras.blogspot.com/2018/05/ : pre-soak 1:00, bleach-fix 6:30, wash 3:00, stabiliser 1:00.
    expect(C41_TWO_BATH.steps.map((step) => step.time.seconds)).toEqual([60, 195, 390, 180, 60]);
  });

  it.each(['e6', 'ecn2'])('give %s no number at all', (key) => {
    const process = SHIPPED_PROCESSES.find((candidate) => candidate.key === key);
    expect(process?.steps.length).toBeGreaterThan(5);
    expect(process && stepsWithoutTime(process)).toEqual(process?.steps);
    expect(process?.steps.every((step) => step.temperature === null && step.timePoints.length === 0)).toBe(
      true,
    );
  });

  it('go through the baths of E-6 in the published order', () => {
    // Kodak TI2443: first developer, reversal bath, colour developer, pre-bleach, bleach, fixer, final rinse.
    const baths = SHIPPED_PROCESSES.find(({ key }) => key === 'e6')?.steps.map((step) => step.bath);
    expect(baths?.filter((bath) => bath !== 'water')).toEqual([
      'first_developer',
      'reversal',
      'colour_developer',
      'pre_bleach',
      'bleach',
      'fixer',
      'final_rinse',
    ]);
  });
});

describe('a process entered by hand', () => {
  it.each([
    ['no_steps', { ...C41_AS_PUBLISHED, steps: [] }],
    ['name_missing', { ...C41_AS_PUBLISHED, name: '  ' }],
    ['step_key_twice', edited({ key: 'bleach' })],
    ['time_not_positive', edited({ time: { seconds: -195, source: mine } })],
    ['time_not_positive', edited({ time: { seconds: Number.NaN, source: mine } })],
    ['time_too_long', edited({ time: { seconds: 200_000, source: mine } })],
    ['temperature_not_real', edited({ temperature: { aimC: 378, lowC: null, highC: null, source: mine } })],
    ['tolerance_upside_down', edited({ temperature: { aimC: 37.8, lowC: 38, highC: 37, source: mine } })],
    ['points_not_falling', edited({ timePoints: [{ celsius: 30, seconds: 100, source: mine }] })],
    ['points_not_falling', edited({ timePoints: [{ celsius: 37.8, seconds: 210, source: mine }] })],
    [
      'agitation_impossible',
      edited({
        agitation: {
          scheme: 'intermittent',
          firstSeconds: 30,
          everySeconds: 5,
          forSeconds: 5,
          turns: null,
          source: mine,
        },
      }),
    ],
    ['push_not_real', edited({ push: { kind: 'factor', rows: [{ stops: 1, value: 0 }], source: mine } })],
    [
      'push_not_real',
      edited({ push: { kind: 'seconds', rows: [{ stops: -1, value: -195 }], source: mine } }),
    ],
    [
      'push_not_real',
      edited({
        push: {
          kind: 'factor',
          rows: [
            { stops: 1, value: 1.3 },
            { stops: 1, value: 1.4 },
          ],
          source: mine,
        },
      }),
    ],
    [
      'bath_facts_not_real',
      edited({
        bathFacts: {
          capacityCm2PerLitre: { value: 0, source: mine },
          shelfDays: null,
          extension: null,
        },
      }),
    ],
    [
      'bath_facts_not_real',
      edited({
        bathFacts: {
          capacityCm2PerLitre: null,
          shelfDays: null,
          extension: { kind: 'steps', rows: [{ fromRoll: 2, seconds: 210 }], source: mine },
        },
      }),
    ],
  ] as const)('is refused with %s', (reason, process) => {
    expect(fault(process)).toBe(reason);
  });

  it('may repeat its own time in the table', () => {
    expect(fault(edited({ timePoints: [{ celsius: 37.8, seconds: 195, source: mine }] }))).toBeNull();
  });
});

describe('the time curve of a step', () => {
  it('joins the step’s own time with its table', () => {
    const curve = findTimeCurve(findStep(C41_TWO_BATH, 'developer'), 'colour_negative');
    expect(curve?.kind === 'points' && curve.points.map((point) => point.celsius)).toEqual([
      25, 30, 37.8, 45,
    ]);
  });

  it('offers the estimate for black-and-white development only', () => {
    const step = findStep(C41_AS_PUBLISHED, 'developer');
    expect(findTimeCurve(step, 'black_and_white')?.kind).toBe('estimate');
    expect(findTimeCurve(step, 'colour_negative')?.kind).toBe('fixed');
  });

  it('is unknown where no time was entered', () => {
    const step = findStep(C41_AS_PUBLISHED, 'developer');
    expect(findTimeCurve({ ...step, time: { seconds: null, source: mine } }, 'colour_negative')).toBeNull();
  });
});
