// @vitest-environment jsdom
import { screen, within } from '@testing-library/react';
import { userEvent } from '@testing-library/user-event';
import { describe, expect, it } from 'vitest';
import { CardView } from '../../../renderer/card/card-view.tsx';
import { findAxeViolations } from '../../support/axe.ts';
import { showView, type ShownView } from '../../support/show-view.tsx';

/** A filed roll of 12 frames on an outing, developed; the card of frame 8. */
async function fill({ ask }: Pick<ShownView, 'ask'>): Promise<string> {
  const { id: rollId } = await ask('rolls.add', {
    number: '2024-031',
    filmFormat: '135',
    frameFormat: '24x36',
    exposures: 12,
    state: 'to develop',
  });
  await ask('frames.add', { rollId, labels: Array.from({ length: 12 }, (_, index) => String(index + 1)) });
  await ask('outings.add', { title: 'Hask upland', date: '2024-04-20', rolls: [{ rollId, labels: null }] });
  await ask('developments.record', {
    rollIds: [rollId],
    process: 'c41',
    date: '2024-04-27',
    developerTempC: 37.2,
  });
  await ask('filing.file', { rollId, binder: '7', page: null, layoutId: '35mm-7x6', cut: null });
  const frames = await ask('frames.ofRoll', { rollId });
  const id = frames.find(({ label }) => label === '8')?.id ?? 0;
  await ask('frames.change', { ids: [id], change: { caption: 'Hask ridge' } });
  return `#/card/${id}`;
}

describe('the card of a frame', () => {
  it('tells where the frame lies and what made it', async () => {
    await showView(CardView, fill);
    const card = await screen.findByRole('article', { name: 'Frame 8 of roll 2024-031' });
    // Strips of six: frame 8 is the second of row 2.
    expect(within(card).getByRole('group', { name: 'Binder 7, page 1, row 2, 2nd' })).toBeDefined();
    expect(within(card).getByRole('link', { name: 'Hask upland' }).getAttribute('href')).toMatch(
      /^#\/outings\/\d+$/,
    );
    expect(card.textContent).toContain('0.6 under 37.8 °C');
    expect(await findAxeViolations(document.body)).toEqual([]);
  });

  it('goes along the roll by arrow key and by the neighbours', async () => {
    const user = userEvent.setup();
    await showView(CardView, fill);
    await screen.findByRole('article', { name: 'Frame 8 of roll 2024-031' });
    await user.keyboard('{ArrowRight}');
    await screen.findByRole('article', { name: 'Frame 9 of roll 2024-031' });
    const film = screen.getByRole('navigation', { name: 'Neighbours on the roll' });
    await user.click(within(film).getByText(/^Frame 7/));
    expect(await screen.findByRole('article', { name: 'Frame 7 of roll 2024-031' })).toBeDefined();
  });

  it('puts the card on the clipboard as text', async () => {
    const user = userEvent.setup();
    await showView(CardView, fill);
    await user.click(await screen.findByRole('button', { name: 'Copy as text' }));
    expect(await screen.findByText('Copied.')).toBeDefined();
    const text = await navigator.clipboard.readText();
    expect(text.split('\n').slice(0, 2)).toEqual(['Frame 8 of roll 2024-031', 'Hask ridge']);
  });

  it('shows the text where the clipboard is out of reach', async () => {
    const user = userEvent.setup();
    await showView(CardView, fill);
    const button = await screen.findByRole('button', { name: 'Copy as text' });
    Object.defineProperty(navigator, 'clipboard', { value: undefined, configurable: true });
    await user.click(button);
    const text = await screen.findByRole('textbox', { name: 'The card as text' });
    expect(text).toHaveProperty('value', expect.stringContaining('Hask ridge'));
  });

  it('says so when there is no such frame', async () => {
    await showView(CardView, async () => '#/card/4711');
    expect(await screen.findByRole('link', { name: 'Find a frame' })).toBeDefined();
  });
});
