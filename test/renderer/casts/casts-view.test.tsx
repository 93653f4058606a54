// @vitest-environment jsdom
import { cleanup, fireEvent, render, screen } from '@testing-library/react';
import { userEvent } from '@testing-library/user-event';
import { useState } from 'react';
import { afterEach, describe, expect, it } from 'vitest';
import { castPoints } from '../../../renderer/casts/cast-points.ts';
import { CastsView } from '../../../renderer/casts/casts-view.tsx';
import { FaultFindings } from '../../../renderer/casts/fault-findings.tsx';
import { ScatterPlot } from '../../../renderer/casts/scatter-plot.tsx';
import { TrendWords } from '../../../renderer/casts/trend-words.tsx';
import type { Trend } from '../../../shared/api/methods/colour-methods.ts';
import { findAxeViolations } from '../../support/axe.ts';
import { showView } from '../../support/show-view.tsx';
import { plotted } from './some-casts.ts';

afterEach(cleanup);

const ROLLS = [
  plotted(1, { a: 1, temperatureErrorC: 0 }),
  plotted(2, { a: 2, temperatureErrorC: 0.2 }),
  plotted(3, { a: -4, temperatureErrorC: -0.6 }),
];

function Plot() {
  const [chosen, setChosen] = useState<number | null>(null);
  return (
    <ScatterPlot
      stock="Fenn 200"
      axis="a"
      factor="temperatureErrorC"
      drawn={castPoints(ROLLS, 'Fenn 200', new Set(), 'a', 'temperatureErrorC')}
      trend={null}
      tolerance={{ eitherWay: 0.15, label: '37.8, 0.15 either way' }}
      chosen={chosen}
      standing={new Set([3])}
      onChoose={setChosen}
    />
  );
}

const TREND: Trend = {
  of: 'a',
  against: 'temperatureErrorC',
  rolls: 34,
  slope: 2.4,
  slopeLow: 1,
  slopeHigh: 3.7,
  correlation: 0.6,
  correlationLow: 0.3,
  correlationHigh: 0.8,
  chance: 1 / 770,
  say: 'What the engine says.',
};

describe('the scatter plot', () => {
  it('names every dot and leads to its roll', async () => {
    render(<Plot />);
    // a* 1, 2, −4: their middle is 1, so they lie at 0, 1 and −5.
    const names = screen.getAllByRole('link').map((link) => link.getAttribute('aria-label'));
    expect(names).toEqual([
      'Roll 2026-003: a* −5.0, greener, developer temperature error −0.6, stands out from its stock',
      'Roll 2026-001: a* 0.0, developer temperature error 0.0',
      'Roll 2026-002: a* +1.0, more magenta, developer temperature error +0.2',
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

describe('the words under the plot', () => {
  it('give size, interval, count and chance, what else goes along, and no cause', () => {
    const age = { ...TREND, against: 'monthsPastExpiry', correlation: -0.65, rolls: 30 } as const;
    render(<TrendWords trend={TREND} trends={[TREND, age]} unplaced={2} />);
    expect(screen.getByText('What the engine says.')).toBeDefined();
    expect(screen.getByRole('heading', { name: 'The two go together' })).toBeDefined();
    expect(screen.getByText(/months past expiry: rank correlation −0.65 over 30 rolls/)).toBeDefined();
    expect(screen.getByText('1 in 770')).toBeDefined();
    expect(screen.getByText(/2 more rolls are measured/)).toBeDefined();
    expect(document.body.textContent).not.toMatch(/because|caused|due to/i);
  });

  it('say that there are not enough rolls', () => {
    const none = { slope: null, slopeLow: null, slopeHigh: null, correlation: null, chance: null } as const;
    render(<TrendWords trend={{ ...TREND, ...none, rolls: 2 }} trends={[]} unplaced={0} />);
    expect(screen.getByRole('heading', { name: 'Not enough rolls' })).toBeDefined();
    expect(screen.queryByText('Rank correlation')).toBeNull();
  });

  it('see no course where the interval of the slope holds 0', () => {
    render(<TrendWords trend={{ ...TREND, slopeLow: -1 }} trends={[TREND]} unplaced={0} />);
    expect(screen.getByRole('heading', { name: 'No common course can be seen' })).toBeDefined();
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
      chance: 1,
      comparisons: 7,
      stands,
      say: `${fault} is told`,
    });
    const weak = ['dust', 'fog', 'scratch', 'blank', 'overlap', 'cast'].map((name) => finding(name, false));
    render(<FaultFindings faults={[...weak, finding('leak', true)]} />);
    expect(screen.getAllByRole('listitem')[0]?.textContent).toBe('leak is told');
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
