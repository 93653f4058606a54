// @vitest-environment jsdom
import { cleanup, fireEvent, render, screen } from '@testing-library/react';
import { userEvent } from '@testing-library/user-event';
import { useState } from 'react';
import { afterEach, describe, expect, it } from 'vitest';
import { castPoints } from '../../../renderer/casts/cast-points.ts';
import { CastsView } from '../../../renderer/casts/casts-view.tsx';
import { FaultFindings } from '../../../renderer/casts/fault-findings.tsx';
import { ScatterPlot } from '../../../renderer/casts/scatter-plot.tsx';
import { StripPlot } from '../../../renderer/casts/strip-plot.tsx';
import { TrendWords } from '../../../renderer/casts/trend-words.tsx';
import { findAxeViolations } from '../../support/axe.ts';
import { showView } from '../../support/show-view.tsx';
import { GROUPS, plotted, TREND } from './some-casts.ts';

afterEach(cleanup);

const ROLLS = [
  plotted(1, { deltaA: 0, temperatureErrorC: 0, camera: 'A' }),
  plotted(2, { deltaA: 1, temperatureErrorC: 0.2, camera: 'A' }),
  plotted(3, { deltaA: -5, temperatureErrorC: -0.6, camera: 'B' }),
];

function Plot() {
  const [chosen, setChosen] = useState<number | null>(null);
  return (
    <ScatterPlot
      stock="Fenn 200"
      per="roll"
      measure="deltaA"
      factor="temperatureErrorC"
      drawn={castPoints(ROLLS, [], 'roll', 'deltaA', 'temperatureErrorC')}
      trend={null}
      tolerance={{ eitherWay: 0.15, label: '37.8, 0.15 either way' }}
      chosen={chosen}
      named={new Set([3])}
      onChoose={setChosen}
    />
  );
}

describe('the scatter plot', () => {
  it('names every dot and leads to its roll', async () => {
    render(<Plot />);
    const names = screen.getAllByRole('link').map((link) => link.getAttribute('aria-label'));
    expect(names).toEqual([
      'Roll 2026-003: Δa* −5.0, greener, developer temperature error −0.6, stands out',
      'Roll 2026-001: Δa* 0.0, developer temperature error 0.0',
      'Roll 2026-002: Δa* +1.0, more magenta, developer temperature error +0.2',
    ]);
    expect(screen.getByRole('link', { name: /2026-002/ }).getAttribute('href')).toBe('#/rolls/2');
    expect(await findAxeViolations(document.body)).toEqual([]);
  });

  it('is one tab stop, and arrows go from dot to dot', async () => {
    const user = userEvent.setup();
    render(<Plot />);
    await user.tab();
    expect(document.activeElement).toBe(screen.getByRole('link', { name: /2026-003/ }));
    await user.keyboard('{ArrowRight}{ArrowRight}{ArrowRight}');
    expect(document.activeElement).toBe(screen.getByRole('link', { name: /2026-002/ }));
    fireEvent.keyDown(document.activeElement ?? document.body, { key: 'Home' });
    expect(document.activeElement).toBe(screen.getByRole('link', { name: /2026-003/ }));
    await user.tab();
    expect(document.activeElement).toBe(document.body);
  });
});

describe('the strip plot', () => {
  it('names every dot with its kind, and leads to its roll', async () => {
    render(
      <StripPlot
        stock="Fenn 200"
        per="roll"
        measure="deltaA"
        kind="camera"
        drawn={castPoints(ROLLS, [], 'roll', 'deltaA', 'camera')}
        groups={GROUPS}
        chosen={null}
        named={new Set()}
        onChoose={() => undefined}
      />,
    );
    expect(screen.getAllByRole('link').map((link) => link.getAttribute('aria-label'))).toEqual([
      'Roll 2026-001: Δa* 0.0, camera A',
      'Roll 2026-002: Δa* +1.0, more magenta, camera A',
      'Roll 2026-003: Δa* −5.0, greener, camera B',
    ]);
    expect(screen.getByRole('link', { name: /2026-003/ }).getAttribute('href')).toBe('#/rolls/3');
    expect(await findAxeViolations(document.body)).toEqual([]);
  });
});

describe('the words under the plot', () => {
  it('give size, interval, count and chance, who lies apart, what else goes along, and no cause', () => {
    const age = { ...TREND, against: 'monthsPastExpiry', correlation: -0.65, count: 30 } as const;
    render(<TrendWords answer={TREND} answers={[TREND, age, GROUPS]} per="roll" />);
    expect(screen.getByText('What the engine says.')).toBeDefined();
    expect(screen.getByRole('heading', { name: 'The two go together' })).toBeDefined();
    expect(screen.getByText(/months past expiry: rank correlation −0.65 over 30/)).toBeDefined();
    // 1/0.0013 = 769, said with two figures.
    expect(screen.getByText('about once in 770')).toBeDefined();
    expect(screen.getByText(/2 more rolls are measured/)).toBeDefined();
    expect(screen.getByRole('link', { name: '2024-031' }).getAttribute('href')).toBe('#/rolls/31');
    expect(document.body.textContent).not.toMatch(/because|caused|due to/i);
  });

  it('say that there are not enough rolls', () => {
    const none = { slope: null, slopeLow: null, slopeHigh: null, correlation: null, chance: null } as const;
    render(<TrendWords answer={{ ...TREND, ...none, count: 2 }} answers={[]} per="roll" />);
    expect(screen.getByRole('heading', { name: 'Not enough rolls' })).toBeDefined();
    expect(screen.queryByText('Rank correlation')).toBeNull();
  });

  it('see no course, and no difference, where chance does the like more than once in twenty', () => {
    const { rerender } = render(
      <TrendWords answer={{ ...TREND, corrected: 0.06 }} answers={[]} per="roll" />,
    );
    expect(screen.getByRole('heading', { name: 'No common course can be seen' })).toBeDefined();
    rerender(<TrendWords answer={GROUPS} answers={[]} per="development" />);
    expect(screen.getByRole('heading', { name: 'No difference can be seen' })).toBeDefined();
  });
});

describe('faults', () => {
  it('puts what stands first and says how many show nothing', () => {
    const finding = (fault: string, stands: boolean) => ({
      fault,
      factor: 'camera',
      value: 'B',
      faultsThere: 1,
      rollsThere: 1,
      faults: 1,
      rolls: 2,
      unknown: 0,
      chance: 1,
      corrected: 1,
      comparisons: 7,
      stands,
      enough: fault !== 'blank',
      there: [{ id: 5, name: '2026-005' }],
      say: `${fault} is told`,
    });
    const weak = ['dust', 'fog', 'scratch', 'blank', 'overlap', 'cast'].map((name) => finding(name, false));
    render(<FaultFindings faults={[...weak, finding('leak', true)]} />);
    const items = screen.getAllByRole('listitem');
    expect(items[0]?.textContent).toBe('leak is told2026-005');
    // Those that could show nothing come last.
    expect(items.at(-1)?.textContent).toBe('blank is told');
    expect(screen.getByRole('link', { name: '2026-005' }).getAttribute('href')).toBe('#/rolls/5');
    expect(screen.getByText('2 more comparisons show nothing either.')).toBeDefined();
  });
});

describe('casts', () => {
  it('says what goes there when there is no colour stock, and leads to the scans', async () => {
    const user = userEvent.setup();
    await showView(CastsView, async () => '#/casts');
    await user.click(await screen.findByRole('button', { name: 'Bring in scans' }));
    expect(window.location.hash).toBe('#/scans');
  });

  it('asks in a sentence, and keeps the question in the address', async () => {
    const user = userEvent.setup();
    await showView(CastsView, async ({ ask }) => {
      const stock = await ask('stocks.add', { name: 'Fenn 200', process: 'c41', iso: 200 });
      const film = { stockId: stock.id, filmFormat: '135', frameFormat: '24x36' };
      await ask('rolls.add', { ...film, number: '2026-001' });
      return '#/casts';
    });
    await screen.findByText(/No roll of Fenn 200 has scans yet/);
    expect(screen.getByRole('heading', { name: 'Not enough rolls' })).toBeDefined();
    await user.click(screen.getByRole('combobox', { name: /Against/ }));
    await user.click(screen.getByRole('option', { name: 'months past expiry' }));
    expect(window.location.hash).toContain('against=monthsPastExpiry');
    await screen.findByRole('heading', {
      name: 'Cast green to magenta of Fenn 200 rolls, against months past expiry',
    });
    await screen.findByText(/Nothing to compare/);
    expect(await findAxeViolations(document.body)).toEqual([]);
  });
});
