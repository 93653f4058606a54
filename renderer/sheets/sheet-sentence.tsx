import type { Output } from '../../shared/api/contract.ts';
import { formatPaperSize } from '../../shared/sheet/paper.ts';
import type { SheetSpec } from '../../shared/sheet/sheet-spec.ts';
import { Select } from '../ui/select.tsx';
import { describeScaleChoice } from './sheet-choice.ts';
import type { ChosenRolls } from './use-chosen-rolls.ts';

export interface SheetSentenceProps {
  readonly chosen: ChosenRolls;
  readonly papers: Output<'sheets.papers'>;
  readonly spec: SheetSpec;
  readonly onSpec: (spec: SheetSpec) => void;
  readonly onChoose: () => void;
}

const LYING = [
  { value: 'auto', label: 'as it fits' },
  { value: 'upright', label: 'upright' },
  { value: 'wide', label: 'wide' },
] as const;

/** Scales offered beside true size. Our choice. */
const SCALES = [1, 'fit', 0.5, 1.5, 2, 3] as const;

/** The sheet as a sentence; its underlined words are the choices. */
export function SheetSentence({ chosen, papers, spec, onSpec, onChoose }: SheetSentenceProps) {
  const scales = SCALES.some((scale) => scale === spec.scale) ? SCALES : [...SCALES, spec.scale];
  const own = spec.customMm ? [{ value: 'custom', label: formatPaperSize(spec.customMm) }] : [];
  return (
    <div className="sheets-sentence" role="group" aria-label="The sheet">
      {chosen.binderId === null ? <span>{chosen.rollIds.length === 1 ? 'Roll' : 'Rolls'}</span> : null}{' '}
      <button
        type="button"
        className="sheets-what numbers"
        onClick={onChoose}
        aria-label={`On the sheet: ${chosen.words}. Change…`}
      >
        {chosen.words}
        <span className="select-arrow" aria-hidden="true" />
      </button>{' '}
      <span>on</span>{' '}
      <Select
        look="sentence"
        label="Paper"
        options={[...papers.map(({ id, name }) => ({ value: id, label: name })), ...own]}
        value={spec.paperId}
        onChange={(paperId) =>
          onSpec({ ...spec, paperId, customMm: paperId === 'custom' ? spec.customMm : null })
        }
      />{' '}
      <span>paper, lying</span>{' '}
      <Select
        look="sentence"
        label="Lying"
        options={LYING}
        value={spec.orientation}
        onChange={(orientation) => onSpec({ ...spec, orientation })}
      />{' '}
      <span>and at</span>{' '}
      <Select
        look="sentence"
        label="Size of the film"
        options={scales.map((scale) => ({ value: String(scale), label: describeScaleChoice(scale) }))}
        value={String(spec.scale)}
        onChange={(scale) => onSpec({ ...spec, scale: scale === 'fit' ? 'fit' : Number(scale) })}
      />
    </div>
  );
}
