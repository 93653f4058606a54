import type { Page } from '../../shared/api/methods/filing-methods.ts';
import { useCommand } from '../api/use-command.ts';
import { WELD_MM } from '../film/page-geometry.ts';
import { useNotices } from '../state/notices.tsx';
import { rollsOnPage } from './page-words.ts';
import { RollCard } from './roll-card.tsx';

export interface RollCardsProps {
  readonly page: Page;
  readonly pxPerMm: number;
  readonly headingPx: number;
}

/** Cards of the rolls on the page, each beside its rows. */
export function RollCards({ page, pxPerMm, headingPx }: RollCardsProps) {
  const takeOut = useCommand('filing.takeOut');
  const notices = useNotices();
  const rolls = rollsOnPage(page);
  const rowPx = (page.layout.pocketHeightMm + WELD_MM) * pxPerMm;

  async function run(rollId: number, number: string): Promise<void> {
    const ended = await takeOut.run({ rollId });
    if (ended.ok) notices.say(`Roll ${number} is out of its pockets.`, 'Undo puts it back.');
  }
  return (
    <div
      className="roll-cards"
      style={{
        paddingTop: headingPx + WELD_MM * pxPerMm,
        gridTemplateRows: `repeat(${page.layout.rows}, minmax(${rowPx}px, auto))`,
      }}
    >
      {rolls.map((roll) => (
        <div
          key={roll.rollId}
          className="roll-cards-place"
          style={{ gridRow: `${roll.rows[0] ?? 1} / ${(roll.rows.at(-1) ?? 1) + 1}` }}
        >
          <RollCard
            roll={roll}
            onTakeOut={() => void run(roll.rollId, roll.number)}
            takingOut={takeOut.pending}
          />
        </div>
      ))}
    </div>
  );
}
