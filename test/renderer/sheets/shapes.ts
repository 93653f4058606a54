type Point = readonly [number, number];

/** Something on a page as it was read back from what a painter made. Millimetres, origin top left, y down. */
export type Shape =
  | {
      readonly kind: 'rect';
      readonly colour: string;
      readonly corners: readonly Point[];
      readonly radiusMm: number;
    }
  | {
      readonly kind: 'line';
      readonly colour: string;
      readonly points: readonly Point[];
      readonly closed: boolean;
      readonly cap: string;
      readonly widthMm: number;
    }
  | { readonly kind: 'image'; readonly corners: readonly Point[] }
  | {
      readonly kind: 'text';
      readonly colour: string;
      readonly text: string;
      /** Where its baseline begins and ends. */
      readonly start: Point;
      readonly end: Point;
      readonly sizeMm: number;
    };

/** The numbers of a shape, and everything else about it in words. */
export function takeApart(shape: Shape): { readonly words: string; readonly numbers: readonly number[] } {
  switch (shape.kind) {
    case 'rect':
      return { words: `rect ${shape.colour}`, numbers: [...shape.corners.flat(), shape.radiusMm] };
    case 'image':
      return { words: 'image', numbers: shape.corners.flat() };
    case 'line':
      return {
        words: `line ${shape.colour} ${shape.cap} ${shape.closed ? 'closed' : 'open'} ${shape.points.length}`,
        numbers: [...shape.points.flat(), shape.widthMm],
      };
    case 'text':
      return {
        words: `text ${shape.colour} ${shape.text}`,
        numbers: [...shape.start, ...shape.end, shape.sizeMm],
      };
  }
}

/**
 * Where two lists of shapes differ, in words: another count, order, colour or text, or a number more than `mm` apart.
 */
export function differences(one: readonly Shape[], other: readonly Shape[], mm: number): string[] {
  if (one.length !== other.length) return [`${one.length} shapes against ${other.length}`];
  return one.flatMap((shape, index) => {
    const against = other[index];
    if (!against) return [];
    const [a, b] = [takeApart(shape), takeApart(against)];
    if (a.words !== b.words) return [`${index}: ${a.words} against ${b.words}`];
    const apart = Math.max(...a.numbers.map((value, at) => Math.abs(value - (b.numbers[at] ?? Number.NaN))));
    return apart <= mm ? [] : [`${index}: ${a.words} is ${apart} mm apart`];
  });
}
