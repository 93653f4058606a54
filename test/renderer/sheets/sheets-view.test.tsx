// @vitest-environment jsdom
import { screen, waitFor, within } from '@testing-library/react';
import { userEvent } from '@testing-library/user-event';
import { describe, expect, it } from 'vitest';
import { SheetsView } from '../../../renderer/sheets/sheets-view.tsx';
import { findAxeViolations } from '../../support/axe.ts';
import { showView, type ShownView } from '../../support/show-view.tsx';

async function addRoll({ ask }: Pick<ShownView, 'ask'>, number: string, frames: number): Promise<number> {
  const { id } = await ask('rolls.add', {
    number,
    filmFormat: '135',
    frameFormat: '24x36',
    exposures: frames,
    state: 'developed',
  });
  const labels = Array.from({ length: frames }, (_, index) => String(index + 1));
  await ask('frames.add', { rollId: id, labels });
  await ask('filing.file', { rollId: id, binder: '7', page: null, layoutId: '35mm-7x6', cut: null });
  return id;
}

describe('contact sheet', () => {
  it('draws the page as it will be printed, in its true size', async () => {
    await showView(
      SheetsView,
      async (archive) => `#/sheets?roll=${await addRoll(archive, '2024-027', 12)}&lying=wide`,
    );
    const sheet = await screen.findByRole('img', { name: 'Contact sheet of 2024-027' });
    // A4 lying wide: 297 × 210 mm (ISO 216).
    expect(sheet.getAttribute('viewBox')).toBe('0 0 297 210');
    expect(await findAxeViolations(document.body)).toEqual([]);
  });

  it('says what does not fit and by how much, and takes a way out', async () => {
    const user = userEvent.setup();
    await showView(
      SheetsView,
      async (archive) => `#/sheets?roll=${await addRoll(archive, '2024-027', 36)}&paper=8x10in`,
    );
    const alert = await screen.findByRole('alert');
    expect(alert.textContent).toMatch(/^The film does not fit, by \d+\.\d mm$/);
    expect(screen.getByRole('button', { name: /^Save/, description: 'waits for a fit' })).toBeDefined();
    const ways = screen.getByRole('list', { name: 'Ways out' });
    await user.click(within(ways).getByRole('button', { name: /^Print on 24 × 30 cm/ }));
    await waitFor(() => expect(window.location.hash).toContain('paper=24x30cm'));
    await waitFor(() => expect(screen.queryByRole('list', { name: 'Ways out' })).toBeNull());
  });

  it('warns plainly when the film is not at true size', async () => {
    const user = userEvent.setup();
    await showView(SheetsView, async (archive) => `#/sheets?roll=${await addRoll(archive, '2024-027', 12)}`);
    await user.click(await screen.findByRole('combobox', { name: /^Size of the film/ }));
    await user.click(screen.getByRole('option', { name: '50 %' }));
    expect(await screen.findByText('Not at true size: the film is drawn at 50.0 %')).toBeDefined();
  });

  it('turns over the pages of a binder', async () => {
    const user = userEvent.setup();
    await showView(SheetsView, async (archive) => {
      await addRoll(archive, '2024-027', 24);
      await addRoll(archive, '2024-028', 24);
      const [binder] = await archive.ask('binders.list', {});
      return `#/sheets?binder=${binder?.id}&paper=a3`;
    });
    await screen.findByText('Page 1 of 2');
    await user.click(screen.getByRole('button', { name: 'The next page' }));
    const name = 'Contact sheet of Binder 7, 2 rolls, page 2 of 2';
    expect(await screen.findByRole('img', { name })).toBeDefined();
  });

  it('asks which rolls go on it, and finds one by its number', async () => {
    const user = userEvent.setup();
    await showView(SheetsView, async (archive) => {
      await addRoll(archive, '2024-027', 12);
      return '#/sheets';
    });
    await user.click(await screen.findByRole('button', { name: 'Choose rolls…' }));
    await user.type(screen.getByRole('combobox', { name: 'Add a roll' }), '2024');
    await user.click(await screen.findByRole('option', { name: /2024-027/ }));
    await user.click(screen.getByRole('button', { name: 'Done' }));
    expect(await screen.findByRole('img', { name: 'Contact sheet of 2024-027' })).toBeDefined();
  });
});
