// @vitest-environment jsdom
import { cleanup, render, screen } from '@testing-library/react';
import { userEvent } from '@testing-library/user-event';
import { useState } from 'react';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { Button } from '../../../renderer/ui/button.tsx';
import { CheckBox } from '../../../renderer/ui/check-box.tsx';
import { ChoiceRow } from '../../../renderer/ui/choice-row.tsx';
import { Dialog } from '../../../renderer/ui/dialog.tsx';
import { EmptyState } from '../../../renderer/ui/empty-state.tsx';
import { FullPanel } from '../../../renderer/ui/full-panel.tsx';
import { nameKeys } from '../../../renderer/ui/keys.tsx';
import { Menu } from '../../../renderer/ui/menu.tsx';
import { Notice } from '../../../renderer/ui/notice.tsx';
import { Progress } from '../../../renderer/ui/progress.tsx';
import { Select } from '../../../renderer/ui/select.tsx';
import { Split } from '../../../renderer/ui/split.tsx';
import { TextField } from '../../../renderer/ui/text-field.tsx';
import { Tooltip } from '../../../renderer/ui/tooltip.tsx';
import { findAxeViolations } from '../../support/axe.ts';
import { giveLayout } from '../../support/page-layout.ts';

let told: string[];
const tell = (line: string) => () => void told.push(line);

beforeEach(() => {
  told = [];
  giveLayout({ width: 800, height: 600 });
});
afterEach(cleanup);

describe('button', () => {
  it('does what it says by mouse, Enter and Space', async () => {
    const user = userEvent.setup();
    render(<Button onPress={tell('filed')}>File them</Button>);
    await user.click(screen.getByRole('button', { name: 'File them' }));
    await user.keyboard('{Enter} ');
    expect(told).toEqual(['filed', 'filed', 'filed']);
  });

  it('stays in reach when it cannot be pressed, and says why', async () => {
    const user = userEvent.setup();
    render(
      <Button onPress={tell('printed')} unavailable="waits for a fit">
        Print
      </Button>,
    );
    await user.tab();
    const button = screen.getByRole('button', { name: 'Print', description: 'waits for a fit' });
    expect(document.activeElement).toBe(button);
    await user.keyboard('{Enter}');
    expect(told).toEqual([]);
  });

  it('is pressed once while it is busy', async () => {
    const user = userEvent.setup();
    render(
      <Button onPress={tell('again')} busy>
        Write
      </Button>,
    );
    await user.click(screen.getByRole('button', { name: 'Write', busy: true }));
    expect(told).toEqual([]);
  });
});

describe('text field', () => {
  it('is found by its label and tells what is typed', async () => {
    const user = userEvent.setup();
    render(<TextField label="Date" value="" onChange={(text) => told.push(text)} />);
    await user.type(screen.getByRole('textbox', { name: 'Date' }), 'a');
    expect(told).toEqual(['a']);
  });

  it('says what is wrong with the text', () => {
    render(<TextField label="Date" value="soon" onChange={() => {}} error="No date can be read from this" />);
    const field = screen.getByRole('textbox', { description: 'No date can be read from this' });
    expect(field.getAttribute('aria-invalid')).toBe('true');
  });

  it('says how the text is read', () => {
    render(<TextField label="Date" value="2024~" onChange={() => {}} reading="read as about 2024" />);
    expect(screen.getByRole('textbox', { description: 'read as about 2024' })).toBeDefined();
  });
});

const PAPERS = [
  { value: 'a4', label: 'A4' },
  { value: '8x10', label: '8 × 10 in' },
  { value: 'letter', label: 'Letter' },
] as const;

function PaperSelect() {
  const [paper, setPaper] = useState<(typeof PAPERS)[number]['value']>('a4');
  return <Select label="Paper" options={PAPERS} value={paper} onChange={setPaper} />;
}

describe('select', () => {
  it('opens, moves and chooses from the keyboard', async () => {
    const user = userEvent.setup();
    render(<PaperSelect />);
    await user.tab();
    await user.keyboard('{ArrowDown}{ArrowDown}{Enter}');
    expect(screen.getByRole('combobox', { name: 'Paper 8 × 10 in', expanded: false })).toBeDefined();
  });

  it('names the option the keyboard is at', async () => {
    const user = userEvent.setup();
    render(<PaperSelect />);
    await user.tab();
    await user.keyboard('{Enter}{End}');
    const active = screen.getByRole('combobox').getAttribute('aria-activedescendant') ?? '';
    expect(document.getElementById(active)?.textContent).toBe('Letter');
  });

  it('finds an option by its first letter, and leaves by Escape without a change', async () => {
    const user = userEvent.setup();
    render(<PaperSelect />);
    await user.tab();
    await user.keyboard('l');
    expect(screen.getByRole('combobox', { name: 'Paper Letter' })).toBeDefined();
    await user.keyboard('{Enter}{Home}{Escape}');
    expect(screen.getByRole('combobox', { name: 'Paper Letter', expanded: false })).toBeDefined();
  });

  it('chooses by mouse', async () => {
    const user = userEvent.setup();
    render(<PaperSelect />);
    await user.click(screen.getByRole('combobox'));
    expect(screen.getByRole('option', { name: 'A4', selected: true })).toBeDefined();
    await user.click(screen.getByRole('option', { name: '8 × 10 in' }));
    expect(screen.getByRole('combobox', { name: 'Paper 8 × 10 in' })).toBeDefined();
  });
});

describe('menu', () => {
  const items = [
    { label: 'Turn left', onPress: tell('left') },
    { label: 'Turn right', onPress: tell('right') },
    { label: 'Flip', onPress: tell('flip'), unavailable: 'no picture yet' },
  ];

  it('walks round its items and uses one', async () => {
    const user = userEvent.setup();
    render(<Menu label="Frame" items={items} />);
    await user.tab();
    await user.keyboard('{ArrowDown}');
    expect(document.activeElement).toBe(screen.getByRole('menuitem', { name: 'Turn left' }));
    await user.keyboard('{ArrowUp}{ArrowUp}{Enter}');
    expect(told).toEqual(['right']);
    expect(document.activeElement).toBe(screen.getByRole('button', { name: 'Frame' }));
  });

  it('does nothing for an item that cannot be used', async () => {
    const user = userEvent.setup();
    render(<Menu label="Frame" items={items} />);
    await user.tab();
    await user.keyboard('{Enter}f{Enter}');
    expect(told).toEqual([]);
    await user.keyboard('{Escape}');
    expect(screen.queryByRole('menu')).toBeNull();
  });
});

describe('dialog', () => {
  it('is named by its title and sends by Enter in a field', async () => {
    const user = userEvent.setup();
    render(
      <Dialog title="A new binder" onClose={tell('closed')} onSubmit={tell('sent')} actions={null}>
        <TextField label="Name" value="" onChange={() => {}} />
      </Dialog>,
    );
    expect(screen.getByRole('dialog', { name: 'A new binder' })).toBeDefined();
    await user.type(screen.getByRole('textbox', { name: 'Name' }), '{Enter}');
    expect(told).toEqual(['sent']);
  });

  it('leaves its closing to the owner', () => {
    render(
      <Dialog title="A new binder" onClose={tell('closed')} actions={null}>
        <p>Text</p>
      </Dialog>,
    );
    const dialog = screen.getByRole('dialog');
    const cancel = new Event('cancel', { cancelable: true });
    dialog.dispatchEvent(cancel);
    expect([told, cancel.defaultPrevented]).toEqual([['closed'], true]);
  });
});

describe('notice', () => {
  it('is told at once when something failed, and stays until it is put away', async () => {
    const user = userEvent.setup();
    render(
      <Notice kind="failed" title="The sheet was not saved" detail="Disk full" onDismiss={tell('away')} />,
    );
    expect(screen.getByRole('alert').textContent).toContain('Disk full');
    await user.click(screen.getByRole('button', { name: 'Put away: The sheet was not saved' }));
    expect(told).toEqual(['away']);
  });

  it('waits its turn when nothing failed', () => {
    render(<Notice kind="said" title="Sheet saved" />);
    expect(screen.getByRole('status').textContent).toContain('Sheet saved');
  });
});

describe('progress', () => {
  it('says how far it is in numbers and in words', () => {
    render(<Progress label="Reading scans" done={120} total={500} text="120 of 500, 3 min left" />);
    const bar = screen.getByRole('progressbar', { name: 'Reading scans' });
    expect(
      ['aria-valuenow', 'aria-valuemax', 'aria-valuetext'].map((name) => bar.getAttribute(name)),
    ).toEqual(['120', '500', '120 of 500, 3 min left']);
  });

  it('gives no number while the total is not known', () => {
    render(<Progress label="Reading scans" done={120} total={null} text="120 files" />);
    expect(screen.getByRole('progressbar').hasAttribute('aria-valuenow')).toBe(false);
  });
});

describe('split', () => {
  it('is moved by arrow keys within its limits', async () => {
    const user = userEvent.setup();
    function Halves() {
      const [width, setWidth] = useState(300);
      return (
        <Split
          label="Width of the card"
          widthPx={width}
          minPx={280}
          maxPx={320}
          onWidth={setWidth}
          first="a"
          second="b"
        />
      );
    }
    render(<Halves />);
    await user.tab();
    const seam = screen.getByRole('separator', { name: 'Width of the card' });
    const widths: (string | null)[] = [];
    for (const key of ['{ArrowLeft}', '{ArrowLeft}', '{End}', '{Home}']) {
      await user.keyboard(key);
      widths.push(seam.getAttribute('aria-valuenow'));
    }
    // 300 + 16 = 316, then the limit of 320; End is the narrowest, Home the widest.
    expect(widths).toEqual(['316', '320', '280', '320']);
  });
});

describe('tooltip', () => {
  it('comes with the focus and goes with Escape', async () => {
    const user = userEvent.setup();
    render(
      <Tooltip says="Undo: caption of 7 frames">
        {(describedBy) => (
          <button type="button" aria-describedby={describedBy}>
            Undo
          </button>
        )}
      </Tooltip>,
    );
    await user.tab();
    expect(screen.getByRole('tooltip').textContent).toBe('Undo: caption of 7 frames');
    await user.keyboard('{Escape}');
    expect(screen.queryByRole('tooltip')).toBeNull();
  });
});

describe('choices', () => {
  it('are radios with one tab stop', async () => {
    const user = userEvent.setup();
    const options = [
      { value: 'keep', label: 'keep' },
      { value: 'fill', label: 'fill gaps' },
    ] as const;
    render(
      <ChoiceRow label="Caption" options={options} value="keep" onChange={(value) => told.push(value)} />,
    );
    await user.click(screen.getByRole('radio', { name: 'fill gaps' }));
    expect(screen.getByRole('group', { name: 'Caption' })).toBeDefined();
    expect(told).toEqual(['fill']);
  });

  it('are boxes to tick', async () => {
    const user = userEvent.setup();
    render(
      <CheckBox checked={false} onChange={(checked) => told.push(String(checked))}>
        Pencil marks
      </CheckBox>,
    );
    await user.click(screen.getByRole('checkbox', { name: 'Pencil marks' }));
    expect(told).toEqual(['true']);
  });
});

describe('keys', () => {
  it('are named as the platform names them', () => {
    expect([nameKeys('Mod Shift Z', false), nameKeys('Mod Shift Z', true)]).toEqual(['Ctrl Shift Z', '⌘⇧Z']);
  });
});

describe('the kit', () => {
  it('gives axe nothing to find', async () => {
    const { container } = render(
      <FullPanel
        title="The archive is away"
        detail="On a disk"
        actions={<Button onPress={() => {}}>Open</Button>}
      >
        <Notice
          kind="warning"
          title="Six strips do not fit"
          actions={<Button onPress={() => {}}>Do this</Button>}
        />
        <TextField label="Date" value="" onChange={() => {}} error="no date" />
        <TextField label="Note" value="" onChange={() => {}} lines={3} labelPlace="above" />
        <PaperSelect />
        <CheckBox checked onChange={() => {}}>
          Captions
        </CheckBox>
        <ChoiceRow
          label="Caption"
          value="keep"
          onChange={() => {}}
          options={[{ value: 'keep', label: 'keep' }]}
        />
        <Progress label="Reading" done={1} total={2} text="1 of 2" />
        <EmptyState says="Nothing here" action={<Button onPress={() => {}}>Add a roll</Button>} />
        <Menu label="Frame" items={[{ label: 'Turn', onPress: () => {}, keys: 'T' }]} />
        <Split label="Width" widthPx={300} minPx={200} maxPx={400} onWidth={() => {}} first="a" second="b" />
        <Button onPress={() => {}} unavailable="later" keys="Ctrl Enter" look="main">
          Write
        </Button>
      </FullPanel>,
    );
    expect(await findAxeViolations(container)).toEqual([]);
  });
});
