// @vitest-environment jsdom
import { cleanup, render, screen, within } from '@testing-library/react';
import { userEvent } from '@testing-library/user-event';
import { useState } from 'react';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { NO_FRAMES, pickFrame } from '../../../renderer/film/frame-selection.ts';
import type { LyingStrip } from '../../../renderer/film/lying-strip.ts';
import { SleevePage } from '../../../renderer/film/sleeve-page.tsx';
import { findAxeViolations } from '../../support/axe.ts';
import { bareFrame, layoutNamed, stripOf } from './some-film.ts';

const STRIPS = [stripOf(1, 1, [1, 2, 3, 4, 5, 6]), stripOf(2, 2, [7, 8, 9, 10])];
const ORDER = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10];

let told: string[];
beforeEach(() => {
  told = [];
});
afterEach(cleanup);

function Page({ strips = STRIPS }: { readonly strips?: readonly LyingStrip[] }) {
  const [selection, setSelection] = useState(NO_FRAMES);
  return (
    <SleevePage
      label="Binder 7, page 31"
      layout={layoutNamed('35mm-7x6')}
      strips={strips}
      pxPerMm={2.8}
      heading={<h2>Page 31</h2>}
      selection={selection}
      onPick={(id, how) => {
        told.push(`${how} ${id}`);
        setSelection((before) => pickFrame(before, ORDER, id, how));
      }}
      onOpen={(id) => told.push(`open ${id}`)}
    />
  );
}

const frame = (id: number) => screen.getByRole('gridcell', { name: `Frame ${id}, no scan` });

describe('a page of sleeves', () => {
  it('names rows by what lies in them', () => {
    render(<Page />);
    const grid = screen.getByRole('grid', { name: 'Binder 7, page 31' });
    const names = within(grid)
      .getAllByRole('row')
      .map((row) => row.getAttribute('aria-label'));
    expect(names.slice(0, 3)).toEqual([
      'Row 1: Roll 2026-001, frames 1 to 6',
      'Row 2: Roll 2026-001, frames 7 to 10',
      'Row 3: empty',
    ]);
    expect(names).toHaveLength(7);
  });

  it('says what room is left in a pocket', () => {
    render(<Page />);
    const [, second, third] = screen.getAllByRole('row');
    // A pocket for 6 frames with 4 in it; an empty one.
    expect(second && within(second).getByText('Room for 2 frames')).toBeTruthy();
    expect(third && within(third).getByText('Room for 6 frames')).toBeTruthy();
  });

  it('has one tab stop', async () => {
    const user = userEvent.setup();
    render(
      <>
        <Page />
        <button type="button">after</button>
      </>,
    );
    await user.tab();
    expect(document.activeElement).toBe(frame(1));
    await user.tab();
    expect(document.activeElement).toBe(screen.getByRole('button', { name: 'after' }));
  });

  it('walks along the strip, on into the next row, and between rows', async () => {
    const user = userEvent.setup();
    render(<Page />);
    await user.tab();
    await user.keyboard('{ArrowRight}{ArrowDown}');
    expect(document.activeElement).toBe(frame(8));
    await user.keyboard('{Home}{ArrowLeft}');
    expect(document.activeElement).toBe(frame(6));
  });

  it('stretches the run with Shift, and says it of the frames', async () => {
    const user = userEvent.setup();
    render(<Page />);
    await user.click(frame(5));
    await user.keyboard('{Shift>}{ArrowRight}{ArrowRight}{/Shift}');
    const picked = ORDER.filter((id) => frame(id).getAttribute('aria-selected') === 'true');
    expect(picked).toEqual([5, 6, 7]);
  });

  it('draws rails around a run, open where it goes on', async () => {
    const user = userEvent.setup();
    const { container } = render(<Page />);
    await user.click(frame(5));
    await user.keyboard('{Shift>}{ArrowRight}{ArrowRight}{/Shift}');
    const rails = [...container.querySelectorAll('.pocket-rail')].map((rail) => rail.className);
    expect(rails).toEqual(['pocket-rail pocket-rail-right', 'pocket-rail pocket-rail-left']);
  });

  it('opens by Enter and by a double click', async () => {
    const user = userEvent.setup();
    render(<Page />);
    await user.click(frame(2));
    await user.keyboard('{Enter}');
    await user.dblClick(frame(9));
    expect(told.filter((line) => line.startsWith('open'))).toEqual(['open 2', 'open 9']);
  });

  it('leaves letters to the view around it', async () => {
    const user = userEvent.setup();
    const keys: string[] = [];
    render(
      // oxlint-disable-next-line jsx-a11y/no-static-element-interactions
      <div onKeyDown={(event) => keys.push(`${event.key} ${event.defaultPrevented}`)}>
        <Page />
      </div>,
    );
    await user.click(frame(2));
    await user.keyboard('m');
    expect(keys).toEqual(['m false']);
  });

  it('marks the pocket a strip would go into, and whether it is free', () => {
    const page = (free: boolean) => (
      <SleevePage
        label="Page"
        layout={layoutNamed('35mm-7x6')}
        strips={STRIPS}
        pxPerMm={2}
        pageId={4}
        target={{ row: 3, position: 1, free }}
      />
    );
    const { container, rerender } = render(page(true));
    expect(container.querySelector('.pocket-aimed')?.getAttribute('data-row')).toBe('3');
    rerender(page(false));
    expect(container.querySelector('.pocket-taken')?.getAttribute('data-page')).toBe('4');
  });

  it('gives each sheet a pocket of its own', () => {
    const { container } = render(
      <SleevePage label="Sheets" layout={layoutNamed('4x5in-2x2')} strips={[]} pxPerMm={1} />,
    );
    const pockets = [...container.querySelectorAll('.pocket')].map((pocket) =>
      [pocket.getAttribute('data-row'), pocket.getAttribute('data-position')].join(' '),
    );
    expect(pockets).toEqual(['1 1', '1 2', '2 1', '2 2']);
  });

  it('shows where one frame lies: its row in the light, the rest in the dark, a ring around it', () => {
    const { container } = render(
      <SleevePage
        label="Where"
        layout={layoutNamed('35mm-7x6')}
        strips={STRIPS}
        pxPerMm={1}
        shown={{ row: 2, frameId: 8 }}
      />,
    );
    expect(container.querySelectorAll('.pocket-strip-dimmed')).toHaveLength(1);
    expect(container.querySelectorAll('.sleeve-pockets-shown')).toHaveLength(1);
    expect(container.querySelectorAll('.pocket-strip > .pencil-marks')).toHaveLength(1);
  });

  it('draws only the frames anew that change when another is reached', async () => {
    const user = userEvent.setup();
    const read: number[] = [];
    // A frame that tells when it is drawn: its caption is read for its name.
    const telling = (id: number) =>
      Object.defineProperty(bareFrame(id), 'caption', {
        get() {
          read.push(id);
          return null;
        },
      });
    const strips = [{ ...stripOf(1, 1, []), frames: [1, 2, 3, 4].map(telling) }];
    render(<Page strips={strips} />);
    await user.click(frame(1));
    read.length = 0;
    await user.keyboard('{ArrowRight}');
    expect([...new Set(read)]).toEqual([1, 2]);
  });

  it('gives axe nothing to find', async () => {
    const { container } = render(<Page />);
    expect(await findAxeViolations(container)).toEqual([]);
  });
});
