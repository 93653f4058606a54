import { useId } from 'react';
import type { Frame } from '../../shared/api/methods/film-methods.ts';
import { useArchive } from '../api/use-query.ts';
import { TextField } from '../ui/text-field.tsx';
import { readTags, type FrameEdits } from './frame-edits.ts';

export interface TagFieldsProps {
  readonly frames: readonly Frame[];
  readonly edits: FrameEdits;
  readonly onEdits: (edits: FrameEdits) => void;
}

/** How many of the ways to finish a tag are offered. */
const OFFERED = 4;

/** The tags of the frames, each to be taken away, and those to be added. */
export function TagFields({ frames, edits, onEdits }: TagFieldsProps) {
  const known = useArchive('tags.list', {}).data ?? [];
  const label = useId();
  const there = [...new Set(frames.flatMap(({ tags }) => tags))].sort();
  const typing = edits.addTags.split(',').at(-1)?.trim().toLocaleLowerCase() ?? '';
  const offered =
    typing === ''
      ? []
      : known
          .filter(
            ({ name }) =>
              name.toLocaleLowerCase().startsWith(typing) && !readTags(edits.addTags).includes(name),
          )
          .slice(0, OFFERED);

  function toggle(name: string): void {
    const removeTags = edits.removeTags.includes(name)
      ? edits.removeTags.filter((other) => other !== name)
      : [...edits.removeTags, name];
    onEdits({ ...edits, removeTags });
  }
  function finish(name: string): void {
    const before = edits.addTags
      .split(',')
      .slice(0, -1)
      .map((part) => part.trim());
    onEdits({ ...edits, addTags: [...before, name].join(', ') });
  }
  return (
    <div className="slip-list">
      <TextField
        label="Add tags"
        value={edits.addTags}
        onChange={(addTags) => onEdits({ ...edits, addTags })}
        placeholder="parted by commas"
        reading={
          offered.length === 0 ? undefined : (
            <>
              {offered.map(({ name }) => (
                <button key={name} type="button" className="slip-word" onClick={() => finish(name)}>
                  {name}
                </button>
              ))}
            </>
          )
        }
      />
      {there.length === 0 ? null : (
        <div role="group" aria-labelledby={label} className="slip-there">
          <span id={label}>Take off</span>
          {there.map((name) => {
            const many = frames.filter(({ tags }) => tags.includes(name)).length;
            return (
              <button
                key={name}
                type="button"
                className="slip-word"
                aria-pressed={edits.removeTags.includes(name)}
                onClick={() => toggle(name)}
              >
                {name}
                {many < frames.length ? ` (${many})` : ''}
              </button>
            );
          })}
        </div>
      )}
    </div>
  );
}
