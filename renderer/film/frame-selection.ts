import type { Picking } from '../ui/grid-list.tsx';

/** Which frames are picked, the one the keyboard is at, and the one a run is stretched from. Ids of frames. */
export interface FrameSelection {
  readonly active: number | null;
  readonly anchor: number | null;
  readonly picked: ReadonlySet<number>;
}

/** No frame picked. */
export const NO_FRAMES: FrameSelection = { active: null, anchor: null, picked: new Set() };

/** The selection after frame `id` was picked; `order` are the frames along the film. */
export function pickFrame(
  selection: FrameSelection,
  order: readonly number[],
  id: number,
  how: Picking,
): FrameSelection {
  switch (how) {
    case 'only':
      return { active: id, anchor: id, picked: new Set([id]) };
    case 'all':
      return { active: id, anchor: selection.anchor ?? id, picked: new Set(order) };
    case 'toggle': {
      const picked = new Set(selection.picked);
      if (!picked.delete(id)) picked.add(id);
      return { active: id, anchor: id, picked };
    }
    case 'to': {
      const anchor = selection.anchor ?? id;
      const [from, to] = [order.indexOf(anchor), order.indexOf(id)];
      if (from < 0 || to < 0) return pickFrame(selection, order, id, 'only');
      const run = order.slice(Math.min(from, to), Math.max(from, to) + 1);
      return { active: id, anchor, picked: new Set(run) };
    }
  }
}

/** The selection without frames that are no longer there. */
export function keepFrames(selection: FrameSelection, order: readonly number[]): FrameSelection {
  const left = new Set(order);
  const gone = (id: number | null) => id !== null && !left.has(id);
  if (
    !gone(selection.active) &&
    !gone(selection.anchor) &&
    [...selection.picked].every((id) => left.has(id))
  ) {
    return selection;
  }
  return {
    active: gone(selection.active) ? null : selection.active,
    anchor: gone(selection.anchor) ? null : selection.anchor,
    picked: new Set([...selection.picked].filter((id) => left.has(id))),
  };
}

/** A picked run in one row, from the frame at `from` to that at `to`, both counted; open where it goes on elsewhere. */
export interface Rail {
  readonly from: number;
  readonly to: number;
  readonly openLeft: boolean;
  readonly openRight: boolean;
}

/** The rails of each row: runs of two frames and more, which may go on from row to row. */
export function railsOf(
  rows: readonly (readonly number[])[],
  picked: ReadonlySet<number>,
): readonly (readonly Rail[])[] {
  const order = rows.flat();
  return rows.map((row, at) => {
    const start = rows.slice(0, at).reduce((sum, { length }) => sum + length, 0);
    const isPicked = (index: number) => {
      const id = order[index];
      return id !== undefined && picked.has(id);
    };
    const rails: Rail[] = [];
    for (let from = 0; from < row.length; from += 1) {
      if (!isPicked(start + from)) continue;
      let to = from;
      while (to + 1 < row.length && isPicked(start + to + 1)) to += 1;
      const openLeft = from === 0 && isPicked(start - 1);
      const openRight = to === row.length - 1 && isPicked(start + row.length);
      if (to > from || openLeft || openRight) rails.push({ from, to, openLeft, openRight });
      from = to;
    }
    return rails;
  });
}

/** Where a key moves to from frame `at`, in rows of frames; null when it does not move. */
export function moveInRows(
  key: string,
  whole: boolean,
  at: number | null,
  rows: readonly (readonly number[])[],
): number | null {
  const order = rows.flat();
  const first = order[0];
  if (first === undefined) return null;
  const rowAt = at === null ? -1 : rows.findIndex((row) => row.includes(at));
  const row = rows[rowAt];
  if (at === null || !row) return /^(Arrow|Home$|End$)/.test(key) ? first : null;
  const column = row.indexOf(at);
  const index = order.indexOf(at);
  const below = (way: 1 | -1): number => {
    for (let next = rowAt + way; next >= 0 && next < rows.length; next += way) {
      const frames = rows[next] ?? [];
      const id = frames[Math.min(column, frames.length - 1)];
      if (id !== undefined) return id;
    }
    return at;
  };
  switch (key) {
    case 'ArrowRight':
      return order[index + 1] ?? at;
    case 'ArrowLeft':
      return order[index - 1] ?? at;
    case 'ArrowDown':
      return below(1);
    case 'ArrowUp':
      return below(-1);
    case 'Home':
      return (whole ? order : row)[0] ?? at;
    case 'End':
      return (whole ? order : row).at(-1) ?? at;
    default:
      return null;
  }
}
