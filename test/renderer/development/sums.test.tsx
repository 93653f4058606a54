// @vitest-environment jsdom
import { cleanup, configure, render, screen } from '@testing-library/react';
import { userEvent } from '@testing-library/user-event';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { findAxeViolations } from '../../support/axe.ts';
import { giveLayout } from '../../support/page-layout.ts';
import { setWindowStage, type WindowStage } from '../../support/window.tsx';

// The engine is a process that has to start first.
configure({ asyncUtilTimeout: 20_000 });

let stage: WindowStage;
let close: (() => void)[] = [];

beforeAll(async () => {
  giveLayout({ width: 1440, height: 900 });
  stage = setWindowStage();
  await stage.engine.call('archive.create', { folder: join(stage.folder, 'archive') });
});
beforeEach(() => {
  window.localStorage.clear();
  window.sessionStorage.clear();
});
afterEach(() => {
  cleanup();
  for (const end of close) end();
  close = [];
});
afterAll(async () => {
  await stage.close();
  if (stage.bugs.length > 0) throw new Error(`There were bugs: ${stage.bugs.map(String).join('; ')}`);
});

function openSum(name: string) {
  window.history.replaceState(null, '', `/#/development/sums/${name}`);
  const root = stage.openWindow();
  close.push(root.close);
  return render(root.element);
}

async function fill(label: string, text: string): Promise<void> {
  const field = await screen.findByRole('textbox', { name: label });
  const user = userEvent.setup();
  await user.clear(field);
  await user.type(field, text);
}

describe('the sums', () => {
  it('dilute by parts with the working', async () => {
    openSum('dilution');
    await fill('Dilution', '1+50');
    await fill('Volume, ml', '600');
    // Facts 5: 600 ml of 1+50 takes 11.76 ml.
    expect(await screen.findByText('11.8 ml of concentrate and 588 ml of water')).toBeDefined();
    expect(screen.getByText(/600 ml × 1 \/ 51/).textContent).toContain('11.76 ml');
    expect(screen.getAllByText('rule of thumb').length).toBeGreaterThan(0);
  });

  it('keep what was typed while another sum is looked at', async () => {
    const user = userEvent.setup();
    openSum('dilution');
    await fill('Volume, ml', '755');
    await user.click(screen.getByRole('link', { name: 'Wash' }));
    expect(await screen.findByRole('heading', { name: 'Wash' })).toBeDefined();
    await user.click(screen.getByRole('link', { name: 'Dilution' }));
    expect(await screen.findByDisplayValue('755')).toBeDefined();
  });

  it('ask about 378 and about °F, and wait for the answer', async () => {
    const user = userEvent.setup();
    openSum('water');
    // Heat balance by hand: 2000 × 27 / 43 = 1255.81 ml of hot water.
    expect(await screen.findByText('1256 ml hot and 744 ml cold')).toBeDefined();
    await fill('Wanted, °C', '390');
    expect(await screen.findByText('Is 39.0 °C meant?')).toBeDefined();
    expect(screen.queryByText('1256 ml hot and 744 ml cold')).toBeNull();
    await user.click(screen.getByRole('button', { name: 'Take 39.0 °C' }));
    expect(await screen.findByText('1256 ml hot and 744 ml cold')).toBeDefined();
    // 131 °F is 55 °C by hand.
    await fill('Hot, °C', '131');
    expect(await screen.findByText('Is 55.0 °C meant?')).toBeDefined();
    await user.click(screen.getByRole('button', { name: 'It is 131 °C' }));
    expect(
      await screen.findByText(/That cannot be worked out: that is no temperature of water/),
    ).toBeDefined();
    await fill('Hot, °C', '131 F');
    expect(await screen.findByText('1256 ml hot and 744 ml cold')).toBeDefined();
  });

  it('follow a tank from two readings, keep its constant, and go on from the room alone', async () => {
    const user = userEvent.setup();
    await stage.engine.call('tanks.add', { name: 'Two reels', reels: 2 });
    openSum('drift');
    // scipy 1.17.1 (solve_ivp, brentq): mean 37.687, centring start 38.618, k = 0.0295 / min.
    expect(await screen.findByText('Mean 37.7 °C; start at 38.6 °C for a mean of 37.8 °C')).toBeDefined();
    await user.click(await screen.findByRole('button', { name: 'Keep 0.0295 for “Two reels”' }));
    expect(await screen.findByText('“Two reels” has this constant.')).toBeDefined();
    await user.click(screen.getByRole('radio', { name: 'a tank that is known' }));
    await user.click(await screen.findByRole('button', { name: 'Two reels: 0.0295' }));
    expect(await screen.findByText('Mean 37.7 °C; start at 38.6 °C for a mean of 37.8 °C')).toBeDefined();
  });

  it('interpolate, push and lengthen a developer time', async () => {
    openSum('time');
    // 480 × (195 / 480) ^ (6.9 / 7.8) = 216.36 s by hand; the rows are facts 4.3.
    expect(await screen.findByText('3:36', { selector: '.sum-result' })).toBeDefined();
    await fill('Developer, °C', '37.8');
    await fill('Push, stops', '1');
    await fill('Rolls before', '8');
    // (195 + 30) × 1.16 = 261 s.
    expect(await screen.findByText('4:21', { selector: '.sum-result' })).toBeDefined();
    await fill('Developer, °C', '50');
    expect(await screen.findByText(/Times are not guessed beyond it/)).toBeDefined();
  });

  it('say what a run at a steady temperature is worth', async () => {
    openSum('run');
    await fill('Readings', '0:00@36.9');
    // 195 s at 36.9 °C, where 216.36 s are asked: worth 195 × 195 / 216.36 = 175.7 s, and 216 s are needed.
    expect(await screen.findByText(/worth 2:56 at 37.8 °C; the same development takes 3:36/)).toBeDefined();
    await fill('Readings', '0:00@378');
    expect(await screen.findByText('378 °C: is 37.8 °C meant?')).toBeDefined();
  });

  it('add film up and say what is left of each bath', async () => {
    // 80 sq in are 516.128 cm².
    await stage.engine.call('baths.add', { name: 'May', kind: 'fixer', capacityCm2: 20 * 516.128 });
    openSum('film');
    // Field log R47: one 135, two 120 and twelve 4×5 are 6 units of 20.
    expect(await screen.findByText('6 rolls of 80 sq in')).toBeDefined();
    const row = (await screen.findByRole('rowheader', { name: 'May' })).closest('tr');
    expect(row?.textContent).toBe('May02014');
  });

  it('take the larger of what covers the reels and what the film needs', async () => {
    openSum('volume');
    await fill('Reels of 135', '2');
    await fill('Dilution', '1+1');
    await fill('At least, ml', '400');
    // By hand: 2 × 290 = 580 ml cover; 2 × 400 × 2 = 1600 ml hold enough.
    expect(await screen.findByText('1600 ml', { selector: '.sum-result' })).toBeDefined();
  });

  it('wash to far below what may stay after three fills, and not after one', async () => {
    openSum('wash');
    // (10 / 510)³ × 600 mg = 0.0045 mg against 516 cm² × 1.4 µg = 0.72 mg.
    expect(await screen.findByText('Enough: less is left than may stay')).toBeDefined();
    expect(screen.getByText(/600 mg × share left/).textContent).toContain('0.0045 mg');
    await fill('Fills', '1');
    expect(await screen.findByText('Not enough: more is left than may stay')).toBeDefined();
  });

  it('have nothing that bars a reader of screens', async () => {
    const { container } = openSum('drift');
    await screen.findByRole('heading', { name: 'Drift of a tank' });
    expect(await findAxeViolations(container)).toEqual([]);
  });
});
