import { useId } from 'react';
import type { Frame } from '../../shared/api/methods/film-methods.ts';
import { Select } from '../ui/select.tsx';
import type { FrameEdits } from './frame-edits.ts';

/** What is wrong on frames, as the archive counts it. */
const FAULT_KINDS = [
  'light leak',
  'scratch',
  'dust',
  'fog',
  'uneven development',
  'cast',
  'blank',
  'overlap',
] as const;

const EDGES = [
  { value: 'none', label: 'no edge' },
  { value: 'left', label: 'left edge' },
  { value: 'right', label: 'right edge' },
  { value: 'top', label: 'top edge' },
  { value: 'bottom', label: 'bottom edge' },
] as const;

export interface FaultFieldsProps {
  readonly frames: readonly Frame[];
  readonly edits: FrameEdits;
  readonly onEdits: (edits: FrameEdits) => void;
}

/** The faults of the frames, each to be taken away, and one to be added. */
export function FaultFields({ frames, edits, onEdits }: FaultFieldsProps) {
  const label = useId();
  const there = [...new Set(frames.flatMap(({ faults }) => faults.map(({ kind }) => kind)))].sort();
  const kinds = [...new Set([...FAULT_KINDS, ...there])];
  const { addFault } = edits;

  function toggle(kind: string): void {
    const removeFaults = edits.removeFaults.includes(kind)
      ? edits.removeFaults.filter((other) => other !== kind)
      : [...edits.removeFaults, kind];
    onEdits({ ...edits, removeFaults });
  }
  return (
    <div className="slip-list">
      <Select
        label="Add fault"
        value={addFault?.kind ?? 'none'}
        options={[{ value: 'none', label: 'none' }, ...kinds.map((kind) => ({ value: kind, label: kind }))]}
        onChange={(kind) =>
          onEdits({ ...edits, addFault: kind === 'none' ? null : { kind, edge: addFault?.edge ?? null } })
        }
      />
      {addFault === null ? null : (
        <Select
          label="Seen at"
          value={addFault.edge ?? 'none'}
          options={EDGES}
          onChange={(edge) =>
            onEdits({ ...edits, addFault: { ...addFault, edge: edge === 'none' ? null : edge } })
          }
        />
      )}
      {there.length === 0 ? null : (
        <div role="group" aria-labelledby={label} className="slip-there">
          <span id={label}>No fault</span>
          {there.map((kind) => {
            const many = frames.filter(({ faults }) => faults.some((fault) => fault.kind === kind)).length;
            return (
              <button
                key={kind}
                type="button"
                className="slip-word"
                aria-pressed={edits.removeFaults.includes(kind)}
                onClick={() => toggle(kind)}
              >
                {kind}
                {many < frames.length ? ` (${many})` : ''}
              </button>
            );
          })}
        </div>
      )}
    </div>
  );
}
