import { useEffect, useMemo, useRef, useState, type KeyboardEvent } from 'react';
import type { Frame, PencilMark } from '../../shared/api/methods/film-methods.ts';
import { parsePartialDate } from '../../shared/domain/date/partial-date.ts';
import { describeError } from '../../shared/text/describe-error.ts';
import { describeDate } from '../../shared/text/calendar-words.ts';
import { Button } from '../ui/button.tsx';
import { BulkField } from './bulk-field.tsx';
import { DoneLine, type Done } from './done-line.tsx';
import { FaultFields } from './fault-fields.tsx';
import { NO_EDITS, planFrameEdits, type FrameEdits, type TextField } from './frame-edits.ts';
import { MarkButtons } from './mark-buttons.tsx';
import { count, framesWords } from './roll-words.ts';
import { OutingField } from './outing-field.tsx';
import { TagFields } from './tag-fields.tsx';
import { useWriteFrames } from './use-write-frames.ts';
import './frame-slip.css';

export interface FrameSlipProps {
  readonly frames: readonly Frame[];
  /** Puts the slip away: what was typed is left, the frames are no longer picked. */
  readonly onLeave: () => void;
  readonly onMark: (kind: PencilMark['kind']) => void;
  readonly onOpen: () => void;
  readonly marking: boolean;
  readonly done: Done | null;
  readonly onDone: (done: Done | null) => void;
  /** Counts up each time the keyboard asks to write. */
  readonly asked: number;
}

/** The one slip that writes to all the frames that are picked. */
export function FrameSlip(props: FrameSlipProps) {
  const { frames, onLeave, onMark, onOpen, marking, done, onDone, asked } = props;
  // What is typed is kept while the run is stretched or another frame is picked; it goes with the slip.
  const [edits, setEdits] = useState<FrameEdits>(NO_EDITS);
  const caption = useRef<HTMLInputElement>(null);
  const writing = useWriteFrames(onDone);
  const plan = useMemo(() => planFrameEdits(frames, edits), [frames, edits]);
  const wrong = Object.keys(plan.problems).length > 0;
  const answered = useRef(asked);
  useEffect(() => {
    if (asked !== answered.current) caption.current?.focus();
    answered.current = asked;
  }, [asked]);

  async function write(): Promise<void> {
    if (wrong || plan.groups.length === 0 || writing.pending) return;
    if (await writing.write(plan.groups)) setEdits(NO_EDITS);
  }
  function press(event: KeyboardEvent): void {
    if (event.key === 'Enter' && (event.ctrlKey || event.metaKey)) void write();
    else if (event.key === 'Escape') onLeave();
    else return;
    event.preventDefault();
    event.stopPropagation();
  }
  const field = (name: TextField) => ({
    frames,
    field: name,
    edit: edits.texts[name],
    problem: plan.problems[name] ?? (writing.failure?.field === name ? writing.failure.says : undefined),
    touched: plan.touched[name],
    onEdit: (edit: FrameEdits['texts'][TextField]) => {
      writing.clear();
      const texts = { ...edits.texts };
      if (edit) texts[name] = edit;
      else delete texts[name];
      setEdits({ ...edits, texts });
    },
  });
  const failure =
    writing.failure !== null && writing.failure.field === null ? describeError(writing.failure.error) : null;

  return (
    // Keys of the slip as a whole; its fields carry the focus.
    // oxlint-disable-next-line jsx-a11y/no-noninteractive-element-interactions
    <section className="frame-slip" aria-label={`Slip for ${framesWords(frames)}`} onKeyDown={press}>
      <header>
        <h2>
          {framesWords(frames)} {frames.length > 1 ? <span>{count(frames.length, 'frame')}</span> : null}
        </h2>
        <Button look="quiet" onPress={onOpen}>
          Look
        </Button>
      </header>
      <MarkButtons frames={frames} onMark={onMark} busy={marking} />
      <BulkField label="Caption" fieldRef={caption} {...field('caption')} />
      <BulkField label="Place" {...field('place')} />
      <BulkField label="Date" numbers readsAs={dateReading} {...field('taken')} />
      <div className="frame-slip-pair">
        <BulkField label="Time" numbers {...field('shutter')} />
        <BulkField label="Aperture" numbers {...field('aperture')} />
      </div>
      <BulkField label="Lens" {...field('lens')} />
      <BulkField label="Filter" {...field('filter')} />
      <OutingField frames={frames} edits={edits} onEdits={setEdits} onDone={onDone} />
      <TagFields frames={frames} edits={edits} onEdits={setEdits} />
      <FaultFields frames={frames} edits={edits} onEdits={setEdits} />
      <BulkField label="Note" lines={2} {...field('note')} />
      <footer>
        <p className="frame-slip-sum">
          {plan.says === '' ? 'Nothing is changed yet.' : `Changes ${plan.says}.`}
        </p>
        {failure === null ? null : (
          <div role="alert" className="frame-slip-failure">
            <p>{failure.title}</p>
            <p>{failure.detail}</p>
          </div>
        )}
        <div className="frame-slip-actions">
          <Button
            look="main"
            keys="Mod Enter"
            busy={writing.pending}
            onPress={() => void write()}
            {...(wrong || plan.groups.length === 0 ? { unavailable: '' } : {})}
          >
            Write to {count(frames.length, 'frame')}
          </Button>
          <Button look="quiet" keys="Esc" onPress={onLeave}>
            Leave
          </Button>
        </div>
        <DoneLine done={done} onUndone={() => onDone(null)} />
      </footer>
    </section>
  );
}

function dateReading(text: string): string | null {
  const date = parsePartialDate(text);
  if (!date.ok) return null;
  return describeDate({ edtf: date.value.edtf, typed: date.value.edtf });
}
