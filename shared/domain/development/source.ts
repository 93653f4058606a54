/**
 * Where a number comes from, so that the window can mark what is not a maker's word.
 * `published`: a maker or a body printed it. `reported`: somebody else repeats it. `rule of thumb`: common
 * practice without a source. `from memory`: believed right, never looked up. `yours`: the user entered it.
 * `arithmetic`: follows from the definition or from the lines above it.
 */
type SourceKind = 'published' | 'reported' | 'rule of thumb' | 'from memory' | 'yours' | 'arithmetic';

/** One source: its kind, and the title and address or the reason in words. */
export type Source = { readonly kind: SourceKind; readonly text: string };

/** A printed specification: title, number, table or page, address. */
export function published(text: string): Source {
  return { kind: 'published', text };
}

/** A second hand account of a specification: who says so, address. */
export function reported(text: string): Source {
  return { kind: 'reported', text };
}

/** Common practice without a source; `text` says what the practice is. */
export function ruleOfThumb(text: string): Source {
  return { kind: 'rule of thumb', text };
}

/** Believed right, never looked up; `text` says whose number it is believed to be. */
export function fromMemory(text: string): Source {
  return { kind: 'from memory', text };
}

/** Entered by the user; `text` is what he says about it. */
export function yours(text: string): Source {
  return { kind: 'yours', text };
}

/** Follows by calculation; `text` names the law or what it is calculated from. */
export function arithmetic(text: string): Source {
  return { kind: 'arithmetic', text };
}

/** Whether a number under this source needs a mark beside it: it is neither printed, entered nor calculated. */
export function isUnverified(source: Source): boolean {
  return source.kind === 'reported' || source.kind === 'rule of thumb' || source.kind === 'from memory';
}
