import { useId, useState } from 'react';
import { formatPaperSize, parsePaperSize } from '../../shared/sheet/paper.ts';
import { sheetSpec, type SheetSpec } from '../../shared/sheet/sheet-spec.ts';
import { CheckBox } from '../ui/check-box.tsx';
import { ChoiceRow } from '../ui/choice-row.tsx';
import { TextField } from '../ui/text-field.tsx';
import { describeScaleChoice, readScale } from './sheet-choice.ts';

export interface SheetOptionsProps {
  readonly spec: SheetSpec;
  readonly onSpec: (spec: SheetSpec) => void;
}

/** How the sheet looks and what stands on it. */
export function SheetOptions({ spec, onSpec }: SheetOptionsProps) {
  return (
    <section className="sheet-options" aria-label="Look">
      <Looks spec={spec} onSpec={onSpec} />
      <div className="sheet-checks">
        <CheckBox checked={spec.captions} onChange={(captions) => onSpec({ ...spec, captions })}>
          Captions under the frames
        </CheckBox>
        <CheckBox checked={spec.pencilMarks} onChange={(pencilMarks) => onSpec({ ...spec, pencilMarks })}>
          Pencil marks
        </CheckBox>
        <CheckBox checked={spec.heading} onChange={(heading) => onSpec({ ...spec, heading })}>
          Heading
        </CheckBox>
        <CheckBox checked={spec.ruler} onChange={(ruler) => onSpec({ ...spec, ruler })}>
          Ruler to check the size
        </CheckBox>
      </div>
      <ChoiceRow
        label="Edges of the film"
        options={[
          { value: 'none', label: 'whole' },
          { value: 'outer', label: 'outer run off' },
          { value: 'all', label: 'trimmed' },
        ]}
        value={spec.trim}
        onChange={(trim) => onSpec({ ...spec, trim })}
      />
      <ChoiceRow
        label="A page of the binder"
        options={[
          { value: 'one', label: 'on one sheet' },
          { value: 'as-needed', label: 'on as many as it takes' },
        ]}
        value={spec.sheets}
        onChange={(sheets) => onSpec({ ...spec, sheets })}
      />
      <details className="sheet-more">
        <summary>Another size of film or paper, margin, title</summary>
        <div className="sheet-fields">
          <ScaleField key={`scale ${spec.scale}`} spec={spec} onSpec={onSpec} />
          <PaperField key={`paper ${spec.paperId}`} spec={spec} onSpec={onSpec} />
          <MarginField key={`margin ${spec.marginMm}`} spec={spec} onSpec={onSpec} />
          <TitleField spec={spec} onSpec={onSpec} />
        </div>
      </details>
    </section>
  );
}

const LOOKS = [
  { value: 'film', label: 'Contact print', says: 'Film and edge print in black' },
  { value: 'ink-saving', label: 'Ink-saving', says: 'Pictures and outlines on white' },
] as const;

/** The looks as small drawings of a strip. */
function Looks({ spec, onSpec }: SheetOptionsProps) {
  const name = useId();
  return (
    <fieldset className="looks">
      <legend>Look</legend>
      {LOOKS.map(({ value, label, says }) => (
        <label key={value} className="look">
          <span className={`look-drawing look-${value}`} aria-hidden="true">
            <span />
            <span />
            <span />
            <span />
          </span>
          <input
            type="radio"
            name={name}
            checked={spec.look === value}
            onChange={() => onSpec({ ...spec, look: value })}
          />
          <span>{label}</span>
          <span className="look-says">{says}</span>
        </label>
      ))}
    </fieldset>
  );
}

function ScaleField({ spec, onSpec }: SheetOptionsProps) {
  const [text, setText] = useState(spec.scale === 'fit' ? '' : String(Math.round(spec.scale * 1000) / 10));
  const scale = readScale(text);
  return (
    <TextField
      label="Film, %"
      value={text}
      inputMode="decimal"
      numbers
      onChange={setText}
      error={text !== '' && scale === null ? 'From 10 to 800 per cent' : undefined}
      reading={text === '' ? describeScaleChoice(spec.scale) : undefined}
      onBlur={() => {
        if (scale !== null && scale !== spec.scale) onSpec({ ...spec, scale });
      }}
      onKeyDown={(event) => {
        if (event.key === 'Enter' && scale !== null) onSpec({ ...spec, scale });
      }}
    />
  );
}

const PAPER_WORDS = {
  paper_unreadable: 'A size is such as 210 × 297, 24 × 30 cm or 8.5 × 11 in',
  paper_too_small: 'Paper from 20 mm is taken',
  paper_too_large: 'Paper up to 2000 mm is taken',
} as const;

function PaperField({ spec, onSpec }: SheetOptionsProps) {
  const [text, setText] = useState(spec.customMm ? formatPaperSize(spec.customMm) : '');
  const read = parsePaperSize(text);
  const take = () => {
    if (read.ok && text !== '') onSpec({ ...spec, paperId: 'custom', customMm: read.value });
  };
  return (
    <TextField
      label="Paper"
      value={text}
      placeholder="24 × 30 cm"
      numbers
      onChange={setText}
      error={text !== '' && !read.ok ? PAPER_WORDS[read.reason] : undefined}
      reading={read.ok ? `read as ${formatPaperSize(read.value)}` : undefined}
      onBlur={take}
      onKeyDown={(event) => {
        if (event.key === 'Enter') take();
      }}
    />
  );
}

function MarginField({ spec, onSpec }: SheetOptionsProps) {
  const [text, setText] = useState(String(spec.marginMm));
  const read = sheetSpec.shape.marginMm.safeParse(text.trim() === '' ? null : Number(text.replace(',', '.')));
  const take = () => {
    if (read.success && read.data !== spec.marginMm) onSpec({ ...spec, marginMm: read.data });
  };
  return (
    <TextField
      label="Margin, mm"
      value={text}
      inputMode="decimal"
      numbers
      onChange={setText}
      error={read.success ? undefined : 'From 0 to 100 mm'}
      onBlur={take}
      onKeyDown={(event) => {
        if (event.key === 'Enter') take();
      }}
    />
  );
}

function TitleField({ spec, onSpec }: SheetOptionsProps) {
  const [text, setText] = useState(spec.title ?? '');
  const take = () => onSpec({ ...spec, title: text.trim() === '' ? null : text.trim().slice(0, 300) });
  return (
    <TextField
      label="Title"
      value={text}
      placeholder="That of the roll"
      onChange={setText}
      onBlur={take}
      onKeyDown={(event) => {
        if (event.key === 'Enter') take();
      }}
    />
  );
}
