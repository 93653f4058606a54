import { describe, expect, it } from 'vitest';
import {
  addedStep,
  draftStep,
  findDraftErrors,
  processOfDraft,
  stepOfDraft,
} from '../../../../renderer/development/processes/process-draft.ts';
import { C41_TWO_BATH } from '../../../../shared/domain/development/processes/c41-two-bath.ts';
import { SHIPPED_PROCESSES } from '../../../../shared/domain/development/processes/shipped.ts';
import { checkProcess, type Step } from '../../../../shared/domain/development/process.ts';
import { yours } from '../../../../shared/domain/development/source.ts';

const LEAFLET = yours('leaflet');

function developer(): Step {
  const found = C41_TWO_BATH.steps.find(({ key }) => key === 'developer');
  if (!found) throw new Error('no developer');
  return found;
}

describe('the fields of a process', () => {
  it.each(SHIPPED_PROCESSES.map((process) => [process.name, process] as const))(
    'leave %s as it was, sources and all, when nothing is changed',
    (_name, process) => {
      const drafts = process.steps.map(draftStep);
      expect(drafts.map(findDraftErrors)).toEqual(process.steps.map(() => ({})));
      expect(processOfDraft(process, process.name, process.note ?? '', drafts, LEAFLET)).toEqual(process);
    },
  );

  it('give what was changed the source of the user, and nothing else', () => {
    const step = stepOfDraft({ ...draftStep(developer()), time: '3:30' }, developer(), LEAFLET);
    expect(step.time).toEqual({ seconds: 210, source: LEAFLET });
    expect(step.temperature).toEqual(developer().temperature);
    expect(step.push).toEqual(developer().push);
  });

  it('take a maker’s table, push table, capacity, life and added time', () => {
    const draft = {
      ...draftStep(developer()),
      points: '8:00@30',
      push: '1=x1.4',
      capacity: '10',
      shelf: '42',
      extension: '1=3:15, 5=3:30',
    };
    const step = stepOfDraft(draft, developer(), LEAFLET);
    expect(step.timePoints).toEqual([{ seconds: 480, celsius: 30, source: LEAFLET }]);
    expect(step.push).toEqual({ kind: 'factor', rows: [{ stops: 1, value: 1.4 }], source: LEAFLET });
    // Ten times 80 sq in: 10 × 80 × 2.54² = 5161.28 cm².
    expect(step.bathFacts?.capacityCm2PerLitre?.value).toBeCloseTo(5161.28, 6);
    expect(step.bathFacts?.shelfDays).toEqual({ value: 42, source: LEAFLET });
    expect(step.bathFacts?.extension).toMatchObject({ kind: 'steps', source: LEAFLET });
  });

  it('ask about 378 and °F unless the unit is typed', () => {
    const draft = draftStep(developer());
    expect(findDraftErrors({ ...draft, aim: '378' }).aim).toBe('Is 37.8 °C meant? Type 378 C if not.');
    // 100.4 °F is 38.0 °C by hand.
    expect(findDraftErrors({ ...draft, aim: '100.4' }).aim).toMatch(/Is 38.0 °C meant/);
    expect(stepOfDraft({ ...draft, aim: '100.4 F' }, developer(), LEAFLET).temperature?.aimC).toBeCloseTo(
      38,
      9,
    );
  });

  it('name what cannot be read', () => {
    const draft = {
      ...draftStep(developer()),
      name: ' ',
      time: '-3:15',
      points: '8@30',
      shelf: '-1',
      every: 'x',
    };
    expect(Object.keys(findDraftErrors(draft)).toSorted()).toEqual([
      'every',
      'name',
      'points',
      'shelf',
      'time',
    ]);
  });

  it('make an added step that can be kept, with the cautions of its bath', () => {
    const drafts = C41_TWO_BATH.steps.map(draftStep);
    const added = { ...addedStep(drafts), name: 'Stop', bath: 'stop', time: '0:30' } as const;
    const process = processOfDraft(C41_TWO_BATH, 'Mine', '', [...drafts, added], LEAFLET);
    expect(checkProcess(process).ok).toBe(true);
    expect(process.steps.at(-1)).toMatchObject({
      name: 'Stop',
      time: { seconds: 30, source: LEAFLET },
      cautions: ['acid_into_water', 'stop_bath_fumes'],
    });
    expect(addedStep([...drafts, added]).key).not.toBe(added.key);
  });
});
