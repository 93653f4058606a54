import { useState } from 'react';
import { createRoot } from 'react-dom/client';
import { Button } from '../../../renderer/ui/button.tsx';
import { CheckBox } from '../../../renderer/ui/check-box.tsx';
import { ChoiceRow } from '../../../renderer/ui/choice-row.tsx';
import { Dialog } from '../../../renderer/ui/dialog.tsx';
import { EmptyState } from '../../../renderer/ui/empty-state.tsx';
import { GridList, type GridColumn } from '../../../renderer/ui/grid-list.tsx';
import { Menu } from '../../../renderer/ui/menu.tsx';
import { Notice } from '../../../renderer/ui/notice.tsx';
import { Progress } from '../../../renderer/ui/progress.tsx';
import { Select } from '../../../renderer/ui/select.tsx';
import { Split } from '../../../renderer/ui/split.tsx';
import { TextField } from '../../../renderer/ui/text-field.tsx';
import { Mark } from '../../../renderer/top/mark.tsx';
import '../../../renderer/styles/fonts.css';
import '../../../renderer/styles/tokens.css';
import '../../../renderer/styles/base.css';
import '../../../renderer/top/top-line.css';
import './kit-page.css';

// Every part of the kit on one page, for looking at and for checks that need a real browser.
// `?appearance=red` sets the ground, `?dialog` opens a dialog.

const COLUMNS: readonly GridColumn<number>[] = [
  {
    id: 'number',
    title: 'Number',
    width: '7rem',
    sortable: true,
    cell: (row) => <b className="numbers">2024-{String(row).padStart(6, '0')}</b>,
  },
  {
    id: 'title',
    title: 'Title',
    width: 'minmax(10rem, 1fr)',
    sortable: true,
    cell: () => 'The water at Torrow, then lambs',
  },
  { id: 'date', title: 'Shot', width: '9rem', cell: () => <span className="numbers">2024-04-20~</span> },
  {
    id: 'frames',
    title: 'Frames',
    width: '5rem',
    align: 'end',
    cell: (row) => <span className="numbers">{row % 40}</span>,
  },
];

const ORDERS = [
  { value: 'closest', label: 'closest words' },
  { value: 'newest', label: 'newest first' },
  { value: 'oldest', label: 'oldest first' },
] as const;

const KEEPS = [
  { value: 'keep', label: 'keep' },
  { value: 'fill', label: 'fill gaps' },
  { value: 'replace', label: 'replace' },
] as const;

function KitPage({ dialog }: { dialog: boolean }) {
  const [active, setActive] = useState(3);
  const [caption, setCaption] = useState('Lambs by the east wall');
  const [order, setOrder] = useState<(typeof ORDERS)[number]['value']>('closest');
  const [keep, setKeep] = useState<(typeof KEEPS)[number]['value']>('fill');
  const [marks, setMarks] = useState(true);
  const [widthPx, setWidthPx] = useState(320);
  return (
    <main className="kit">
      <header className="top-line">
        <Mark />
        <span className="top-name">Edgeprint</span>
        <nav className="top-places" aria-label="Places">
          <ul>
            {['Rolls', 'Binders', 'Scans', 'Sheets'].map((name) => (
              <li key={name}>
                <a
                  href={`#/${name}`}
                  className="top-place"
                  aria-current={name === 'Binders' ? 'page' : undefined}
                >
                  {name}
                </a>
              </li>
            ))}
          </ul>
        </nav>
        <p className="top-state numbers">412 rolls, all saved</p>
      </header>
      <div className="kit-split">
        <Split
          label="Width of the slip"
          widthPx={widthPx}
          minPx={240}
          maxPx={480}
          onWidth={setWidthPx}
          first={
            <GridList
              label="Rolls"
              columns={COLUMNS}
              count={100_000}
              rowAt={(index) => index}
              rowKey={(index) => index}
              active={active}
              onActive={setActive}
              sort={{ column: 'number', descending: true }}
              onSort={() => {}}
            />
          }
          second={
            <div className="kit-slip">
              <h1>Frames 15 to 21</h1>
              <ChoiceRow label="Caption" options={KEEPS} value={keep} onChange={setKeep} />
              <TextField label="Caption" labelPlace="unseen" value={caption} onChange={setCaption} />
              <TextField
                label="Date"
                value="2024-04-20~"
                onChange={() => {}}
                reading="read as about 20 April 2024"
                numbers
              />
              <TextField
                label="Lens"
                value="fifty"
                onChange={() => {}}
                error="No length can be read from this"
              />
              <Select label="Order" options={ORDERS} value={order} onChange={setOrder} />
              <CheckBox checked={marks} onChange={setMarks}>
                Pencil marks
              </CheckBox>
              <CheckBox checked={!marks} onChange={(checked) => setMarks(!checked)}>
                Captions
              </CheckBox>
              <div className="kit-row">
                <Button look="main" keys="Ctrl Enter" onPress={() => {}}>
                  Write to 7 frames
                </Button>
                <Button look="quiet" onPress={() => {}}>
                  Leave
                </Button>
              </div>
              <div className="kit-row">
                <Button onPress={() => {}}>Print the spine label</Button>
                <Menu label="Frame" items={[{ label: 'Turn left', onPress: () => {}, keys: 'T' }]} />
              </div>
              <div className="kit-row">
                <Button onPress={() => {}} unavailable="waits for a fit">
                  Print
                </Button>
              </div>
              <Progress
                label="Reading scans"
                done={120}
                total={500}
                text="120 of 500, 14 a second, 27 s left"
              />
              <EmptyState
                says="Rolls that are developed and not yet filed lie here."
                action={<Button onPress={() => {}}>File a roll</Button>}
              />
            </div>
          }
        />
      </div>
      <Notice
        kind="failed"
        title="The sheet was not saved"
        detail="There is no room left on the disk of /home/somebody/sheets."
        advice="Make room, or choose another folder. Nothing that was there has changed."
        onDismiss={() => {}}
      />
      {dialog ? (
        <Dialog
          title="A new binder"
          onClose={() => {}}
          actions={
            <Button look="main" submit onPress={() => {}}>
              Add it
            </Button>
          }
        >
          <TextField label="Name" value="9" onChange={() => {}} autoFocus />
        </Dialog>
      ) : null}
    </main>
  );
}

const choices = new URLSearchParams(window.location.search);
document.documentElement.dataset.appearance = choices.get('appearance') ?? 'dark';
const place = document.getElementById('root');
if (place) createRoot(place).render(<KitPage dialog={choices.has('dialog')} />);
