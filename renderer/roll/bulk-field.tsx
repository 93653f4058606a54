import type { ReactNode, Ref } from 'react';
import type { Frame } from '../../shared/api/methods/film-methods.ts';
import { formatFrameRange } from '../../shared/domain/frame/frame-range.ts';
import { ChoiceRow } from '../ui/choice-row.tsx';
import { TextField } from '../ui/text-field.tsx';
import { commonText, type Mode, type TextEdit, type TextField as FieldName } from './frame-edits.ts';

export interface BulkFieldProps {
  readonly label: string;
  readonly frames: readonly Frame[];
  readonly field: FieldName;
  readonly edit: TextEdit | undefined;
  readonly onEdit: (edit: TextEdit | undefined) => void;
  readonly problem?: string | undefined;
  /** The frames that what was typed will change. */
  readonly touched: readonly Frame[] | undefined;
  readonly readsAs?: (text: string) => string | null;
  readonly numbers?: boolean;
  readonly lines?: number;
  readonly fieldRef?: Ref<HTMLInputElement>;
}

const MODES: readonly { readonly value: Mode; readonly label: string }[] = [
  { value: 'keep', label: 'keep' },
  { value: 'gaps', label: 'fill gaps' },
  { value: 'replace', label: 'replace' },
  { value: 'empty', label: 'empty' },
];

/** A fact of several frames: what they have in common, and what becomes of it where they differ. */
export function BulkField(props: BulkFieldProps) {
  const { label, frames, field, edit, onEdit, problem, touched, readsAs, numbers = false, lines = 1 } = props;
  const common = commonText(frames, field);
  const gaps = common.kind === 'mixed' ? frames.length - common.filled : 0;
  const mode = edit?.mode ?? 'keep';
  const text = edit?.text ?? (common.kind === 'same' ? common.text : '');

  function type(typed: string): void {
    if (common.kind === 'same') onEdit(typed === common.text ? undefined : { text: typed, mode: 'replace' });
    else
      onEdit({
        text: typed,
        mode: mode === 'keep' || mode === 'empty' ? (gaps > 0 ? 'gaps' : 'replace') : mode,
      });
  }
  function choose(next: Mode): void {
    onEdit(next === 'keep' ? undefined : { text: next === 'empty' ? '' : text, mode: next });
  }
  return (
    <div className={common.kind === 'mixed' ? 'bulk-field bulk-field-mixed' : 'bulk-field'}>
      {common.kind === 'mixed' ? (
        <ChoiceRow
          label={`${label} of frames that differ`}
          labelUnseen
          options={gaps > 0 ? MODES : MODES.filter(({ value }) => value !== 'gaps')}
          value={mode}
          onChange={choose}
        />
      ) : null}
      <TextField
        label={label}
        value={text}
        onChange={type}
        numbers={numbers}
        lines={lines}
        placeholder={placeholder(common, mode)}
        error={edit ? problem : undefined}
        reading={reading(edit, text, touched, frames, readsAs)}
        {...(props.fieldRef === undefined ? {} : { fieldRef: props.fieldRef })}
      />
    </div>
  );
}

function placeholder(common: ReturnType<typeof commonText>, mode: Mode): string {
  if (common.kind === 'same') return 'none';
  return mode === 'empty' ? 'will be none' : 'different ones';
}

function reading(
  edit: TextEdit | undefined,
  text: string,
  touched: readonly Frame[] | undefined,
  frames: readonly Frame[],
  readsAs: BulkFieldProps['readsAs'],
): ReactNode {
  if (!edit) return undefined;
  const read = edit.mode === 'empty' ? null : (readsAs?.(text) ?? null);
  const going = touched?.length ?? 0;
  const kept = frames.length - going;
  const goes =
    edit.mode === 'gaps' && touched !== undefined && kept > 0 ? (
      <>
        goes to <b>{formatFrameRange(touched.map(({ label }) => label))}</b>; the other {kept} keep theirs
      </>
    ) : null;
  if (read === null && goes === null) return undefined;
  return (
    <>
      {read === null ? null : (
        <>
          read as <b>{read}</b>
        </>
      )}
      {read !== null && goes !== null ? '; ' : null}
      {goes}
    </>
  );
}
