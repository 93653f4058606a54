// @vitest-environment jsdom
import { act, cleanup, fireEvent, render, screen, within } from '@testing-library/react';
import { userEvent } from '@testing-library/user-event';
import { useState } from 'react';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { GridList, type GridColumn, type Picking } from '../../../renderer/ui/grid-list.tsx';
import { findAxeViolations } from '../../support/axe.ts';
import { giveLayout } from '../../support/page-layout.ts';

interface Row {
  readonly number: string;
  readonly frames: number;
}

const COLUMNS: readonly GridColumn<Row>[] = [
  { id: 'number', title: 'Number', width: '6rem', sortable: true, cell: (row) => row.number },
  { id: 'frames', title: 'Frames', width: '4rem', align: 'end', cell: (row) => row.frames },
];

const rowAt = (index: number): Row => ({ number: `R-${index}`, frames: index % 40 });

/** A list that keeps its own state and writes down what it was told. */
function List({ count, told }: { count: number; told: string[] }) {
  const [active, setActive] = useState(0);
  const [picked, setPicked] = useState<ReadonlySet<number>>(new Set());
  return (
    <GridList
      label="Rolls"
      columns={COLUMNS}
      count={count}
      rowAt={rowAt}
      rowKey={(index) => index}
      active={active}
      onActive={setActive}
      onOpen={(index) => told.push(`open ${index}`)}
      isPicked={(index) => picked.has(index)}
      onPick={(index, how: Picking) => {
        told.push(`${how} ${index}`);
        setPicked(new Set([index]));
      }}
      sort={{ column: 'number', descending: false }}
      onSort={(column) => told.push(`sort ${column}`)}
      empty={<p>No rolls yet.</p>}
    />
  );
}

/** 600 px high: the header takes 28, and 22 rows of 26 fit below it. */
const HEIGHT = 600;
const row = (index: number) => screen.getByRole('row', { name: new RegExp(`^R-${index} `) });

let told: string[];
beforeEach(() => {
  told = [];
  giveLayout({ width: 800, height: HEIGHT });
});
afterEach(cleanup);

describe('grid list', () => {
  it('says how many rows there are, header included, though few are in the page', () => {
    render(<List count={20_000} told={told} />);
    expect(screen.getByRole('grid', { name: 'Rolls' }).getAttribute('aria-rowcount')).toBe('20001');
    expect(row(0).getAttribute('aria-rowindex')).toBe('2');
  });

  it('holds 20 000 rows in fewer than 150 elements', () => {
    const { container } = render(<List count={20_000} told={told} />);
    // 23 rows in sight and 10 beyond, of 3 elements each, and the header: about 105.
    expect(container.querySelectorAll('*').length).toBeLessThan(150);
    expect(screen.getAllByRole('row').length).toBeGreaterThan(20);
  });

  it('has one tab stop', async () => {
    const user = userEvent.setup();
    render(
      <>
        <button type="button">before</button>
        <List count={100} told={told} />
        <button type="button">after</button>
      </>,
    );
    await user.tab();
    await user.tab();
    expect(document.activeElement).toBe(row(0));
    await user.tab();
    expect(document.activeElement).toBe(screen.getByRole('button', { name: 'after' }));
  });

  it('walks by arrows, pages and ends', async () => {
    const user = userEvent.setup();
    render(<List count={20_000} told={told} />);
    await user.tab();
    await user.keyboard('{ArrowDown}{ArrowDown}{ArrowUp}');
    expect(document.activeElement).toBe(row(1));
    await user.keyboard('{End}');
    expect(document.activeElement).toBe(row(19_999));
    await user.keyboard('{ArrowDown}');
    expect(document.activeElement).toBe(row(19_999));
    await user.keyboard('{Home}');
    expect(document.activeElement).toBe(row(0));
    await user.keyboard('{PageDown}');
    // (600 − 28) / 26 = 22 rows; a page keeps one of them in sight.
    expect(document.activeElement).toBe(row(21));
  });

  it('keeps the focus on its row when that is scrolled out', async () => {
    const user = userEvent.setup();
    render(<List count={20_000} told={told} />);
    await user.tab();
    await user.keyboard('{ArrowDown}');
    const grid = screen.getByRole('grid');
    act(() => {
      grid.scrollTop = 200_000;
      fireEvent.scroll(grid);
    });
    expect(screen.getByRole('row', { name: /^R-7692 / })).toBeDefined();
    expect(document.activeElement).toBe(row(1));
    await user.keyboard('{ArrowDown}');
    expect(document.activeElement).toBe(row(2));
  });

  it('does not take the focus from elsewhere when the active row changes', async () => {
    render(
      <>
        <input aria-label="Find" />
        <List count={100} told={told} />
      </>,
    );
    const field = screen.getByRole('textbox', { name: 'Find' });
    field.focus();
    fireEvent.click(row(5));
    expect(document.activeElement).toBe(field);
  });

  it('opens by Enter and by a double click', async () => {
    const user = userEvent.setup();
    render(<List count={100} told={told} />);
    await user.tab();
    await user.keyboard('{ArrowDown}{Enter}');
    await user.dblClick(row(3));
    expect(told.filter((line) => line.startsWith('open'))).toEqual(['open 1', 'open 3']);
  });

  it('picks alone, by adding, by stretching, and all', async () => {
    const user = userEvent.setup();
    render(<List count={100} told={told} />);
    await user.click(row(1));
    await user.keyboard('{Control>}');
    await user.click(row(3));
    await user.keyboard('{/Control}{Shift>}');
    await user.click(row(6));
    await user.keyboard('{ArrowDown}{/Shift} {Control>}a{/Control}');
    expect(told).toEqual(['only 1', 'toggle 3', 'to 6', 'to 7', 'toggle 7', 'all 7']);
    expect(row(7).getAttribute('aria-selected')).toBe('true');
  });

  it('sorts from the keyboard, in the headings above the first row', async () => {
    const user = userEvent.setup();
    render(<List count={100} told={told} />);
    await user.tab();
    await user.keyboard('{ArrowUp}');
    const heading = screen.getByRole('columnheader', { name: 'Number' });
    expect(document.activeElement).toBe(heading);
    expect(heading.getAttribute('aria-sort')).toBe('ascending');
    await user.keyboard('{Enter}{ArrowRight}{Enter}');
    expect(document.activeElement).toBe(screen.getByRole('columnheader', { name: 'Frames' }));
    await user.keyboard('{ArrowDown}');
    expect(document.activeElement).toBe(row(0));
    expect(told).toEqual(['sort number']);
  });

  it('says what goes there when it is empty, and can still be reached', async () => {
    const user = userEvent.setup();
    render(<List count={0} told={told} />);
    expect(screen.getByText('No rolls yet.')).toBeDefined();
    await user.tab();
    expect(document.activeElement).toBe(screen.getByRole('columnheader', { name: 'Number' }));
  });

  it('names cells and headings by their columns', () => {
    render(<List count={10} told={told} />);
    const cells = within(row(4)).getAllByRole('gridcell');
    expect(cells.map((cell) => [cell.getAttribute('aria-colindex'), cell.textContent])).toEqual([
      ['1', 'R-4'],
      ['2', '4'],
    ]);
  });

  it.each([0, 50])('gives axe nothing to find with %i rows', async (count) => {
    const { container } = render(<List count={count} told={told} />);
    expect(await findAxeViolations(container)).toEqual([]);
  });
});
