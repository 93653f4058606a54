// @vitest-environment jsdom
import { screen, waitFor, within } from '@testing-library/react';
import { userEvent } from '@testing-library/user-event';
import { describe, expect, it } from 'vitest';
import { FindView } from '../../../renderer/find/find-view.tsx';
import { findAxeViolations } from '../../support/axe.ts';
import { showView, type ShownView } from '../../support/show-view.tsx';

/** A filed roll of 12 frames and one that is not filed; three frames have captions. */
async function fill({ ask }: Pick<ShownView, 'ask'>): Promise<string> {
  const { id: stockId } = await ask('stocks.add', { name: 'Fenn 200', process: 'c41', iso: 200 });
  for (const number of ['2024-031', '2024-032']) {
    const { id } = await ask('rolls.add', {
      number,
      filmFormat: '135',
      frameFormat: '24x36',
      exposures: 12,
      state: 'developed',
      ...(number === '2024-031' ? { stockId } : {}),
    });
    const labels = Array.from({ length: 12 }, (_, index) => String(index + 1));
    await ask('frames.add', { rollId: id, labels });
    const frames = await ask('frames.ofRoll', { rollId: id });
    const idOf = (label: string) => frames.find((frame) => frame.label === label)?.id ?? 0;
    await ask('frames.change', { ids: [idOf('8')], change: { caption: 'Hask ridge, evening light' } });
    if (number === '2024-031') {
      await ask('frames.change', { ids: [idOf('2')], change: { caption: 'Light on the water' } });
      await ask('filing.file', { rollId: id, binder: '7', page: null, layoutId: '35mm-7x6', cut: null });
    }
  }
  return '#/find?words=light';
}

const rows = () =>
  within(screen.getByRole('grid', { name: 'Frames found' }))
    .getAllByRole('row')
    .filter((row) => row.dataset['index'] !== undefined);

describe('find', () => {
  it('shows each frame found with its roll, its place and the page it lies in', async () => {
    await showView(FindView, fill);
    expect(await screen.findByText('3 frames found')).toBeDefined();
    // Filed by hand in strips of six: frame 8 is the second of row 2, frame 2 the second of row 1.
    await waitFor(() => expect(rows()[0]?.textContent).toContain('Binder 7, page 1'));
    expect(rows()[0]?.textContent).toContain('row 1, 2nd');
    expect(rows()[1]?.textContent).toContain('row 2, 2nd');
    expect(rows()[2]?.textContent).toContain('not filed');
    const where = screen.getByRole('complementary', { name: 'Where it is' });
    expect(await within(where).findByRole('group', { name: 'Binder 7, page 1, row 1, 2nd' })).toBeDefined();
    expect(await findAxeViolations(document.body)).toEqual([]);
  });

  it('goes down the hits by keyboard and opens the page of one with Enter', async () => {
    const user = userEvent.setup();
    const { ask } = await showView(FindView, fill);
    await screen.findByText('3 frames found');
    await waitFor(() => expect(rows()).toHaveLength(3));
    rows()[0]?.focus();
    await user.keyboard('{ArrowDown}');
    const where = screen.getByRole('complementary', { name: 'Where it is' });
    await within(where).findByText('2024-031, frame 8');
    await user.keyboard('{Enter}');
    const [binder] = await ask('binders.list', {});
    const [page] = await ask('pages.ofBinder', { binderId: binder?.id ?? 0 });
    expect(window.location.hash).toMatch(new RegExp(`^#/binders/${binder?.id}/${page?.id}\\?frame=\\d+$`));
  });

  it('narrows the search by a stock, and takes that away again', async () => {
    const user = userEvent.setup();
    await showView(FindView, fill);
    const stocks = await screen.findByRole('region', { name: 'Stock' });
    await user.click(within(stocks).getByRole('button', { name: /Fenn 200/ }));
    expect(await screen.findByText('2 frames found')).toBeDefined();
    await user.click(await screen.findByRole('button', { name: /^Take away:.*Fenn 200/ }));
    expect(await screen.findByText('3 frames found')).toBeDefined();
    expect(screen.getByRole('textbox', { name: 'Find frames' })).toHaveProperty('value', 'light');
  });

  it('points at a mistake and puts in what could stand there', async () => {
    const user = userEvent.setup();
    await showView(FindView, async (archive) => `${await fill(archive)}`.replace('light', 'stok:fenn'));
    const alert = await screen.findByRole('alert');
    expect(alert.textContent).toContain('there is no such field');
    await user.click(within(alert).getByRole('button'));
    await waitFor(() =>
      expect(screen.getByRole('textbox', { name: 'Find frames' })).toHaveProperty('value', 'stock:fenn'),
    );
    expect(await screen.findByText('12 frames found')).toBeDefined();
  });

  it('keeps a search by name and brings it back', async () => {
    const user = userEvent.setup();
    const { ask } = await showView(FindView, fill);
    await user.click(await screen.findByRole('button', { name: 'Keep this search…' }));
    const name = screen.getByRole('textbox', { name: 'Name' });
    await user.clear(name);
    await user.type(name, 'evenings{Enter}');
    await screen.findByRole('button', { name: 'Forget “evenings”' });
    expect((await ask('searches.list', {})).map(({ query }) => query)).toEqual(['light']);
  });

  it('shows what is typed as filters, and types what is changed in them', async () => {
    const user = userEvent.setup();
    await showView(FindView, fill);
    const box = () => screen.getByRole('textbox', { name: 'Find frames' });
    const filters = await screen.findByRole('region', { name: 'Filters' });
    await user.type(box(), ' stock:fenn');
    const stock = within(filters).getByRole('group', { name: 'stock' });
    await user.type(within(stock).getByRole('combobox', { name: 'stock' }), ' 200');
    // A name with a blank is typed in quotation marks.
    expect(box()).toHaveProperty('value', 'light stock:"fenn 200"');
    await user.click(within(stock).getByRole('button', { name: 'not stock' }));
    expect(box()).toHaveProperty('value', 'light not stock:"fenn 200"');
    // Of the three frames with light one is on the roll without that stock.
    expect(await screen.findByText('1 frame found')).toBeDefined();
  });

  it('adds a filter for any field; it is part of the search once it has a value', async () => {
    const user = userEvent.setup();
    await showView(FindView, fill);
    const filters = await screen.findByRole('region', { name: 'Filters' });
    const box = () => screen.getByRole('textbox', { name: 'Find frames' });
    await user.click(within(filters).getByRole('combobox', { name: /Add a filter/ }));
    await user.click(within(filters).getByRole('option', { name: 'box speed' }));
    expect(box()).toHaveProperty('value', 'light');
    await user.keyboard('100');
    expect(box()).toHaveProperty('value', 'light iso:100..');
    await user.tab();
    await user.keyboard('4x');
    expect(within(filters).getByRole('alert').textContent).toContain('a number is needed');
    await user.keyboard('{Backspace}00');
    expect(box()).toHaveProperty('value', 'light iso:100..400');
    expect(await screen.findByText('2 frames found')).toBeDefined();
  });

  it('leaves what filters cannot show as text, and keeps it when another is changed', async () => {
    const user = userEvent.setup();
    await showView(FindView, async (archive) =>
      `${await fill(archive)}`.replace('light', encodeURIComponent('light (a or (hask ridge)) tag:x')),
    );
    const filters = await screen.findByRole('region', { name: 'Filters' });
    expect(within(filters).getByRole('group', { name: 'As typed: a or hask ridge' })).toBeDefined();
    await user.click(within(filters).getByRole('button', { name: 'Take away: tag' }));
    expect(screen.getByRole('textbox', { name: 'Find frames' })).toHaveProperty(
      'value',
      'light (a or hask ridge)',
    );
  });

  it('asks for a count once more than once: the second press takes it away', async () => {
    const user = userEvent.setup();
    await showView(FindView, async (archive) =>
      `${await fill(archive)}`.replace('light', encodeURIComponent('light or zzz')),
    );
    const stocks = await screen.findByRole('region', { name: 'Stock' });
    await user.click(within(stocks).getByRole('button', { name: /Fenn 200/ }));
    const box = () => screen.getByRole('textbox', { name: 'Find frames' });
    // Beside an "or" the rest goes into brackets, or it would belong to its last word alone.
    expect(box()).toHaveProperty('value', '(light or zzz) stock:"Fenn 200"');
    await screen.findByText('2 frames found');
    await user.click(
      within(screen.getByRole('region', { name: 'Stock' })).getByRole('button', { name: /Fenn 200/ }),
    );
    expect(box()).toHaveProperty('value', 'light or zzz');
  });
});
