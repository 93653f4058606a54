/** A set of frames by id, as bits: joined and cut in words of 32, so that a million frames take 125 KB. */
export class FrameSet {
  readonly words: Uint32Array;

  /** An empty set for ids below `size`. */
  constructor(size: number) {
    this.words = new Uint32Array(Math.ceil(size / 32));
  }

  add(id: number): void {
    const at = id >>> 5;
    if (at < this.words.length) this.words[at] = (this.words[at] ?? 0) | (1 << (id & 31));
  }

  remove(id: number): void {
    const at = id >>> 5;
    if (at < this.words.length) this.words[at] = (this.words[at] ?? 0) & ~(1 << (id & 31));
  }

  /** Keeps what is in `other`, too. Both are of one size. */
  cut(other: FrameSet): this {
    for (let at = 0; at < this.words.length; at += 1) {
      this.words[at] = (this.words[at] ?? 0) & (other.words[at] ?? 0);
    }
    return this;
  }

  /** Adds what is in `other`. */
  join(other: FrameSet): this {
    for (let at = 0; at < this.words.length; at += 1) {
      this.words[at] = (this.words[at] ?? 0) | (other.words[at] ?? 0);
    }
    return this;
  }

  /** Takes out what is in `other`. */
  drop(other: FrameSet): this {
    for (let at = 0; at < this.words.length; at += 1) {
      this.words[at] = (this.words[at] ?? 0) & ~(other.words[at] ?? 0);
    }
    return this;
  }

  copy(): FrameSet {
    const made = new FrameSet(this.words.length * 32);
    made.words.set(this.words);
    return made;
  }

  /** Every id, ascending. */
  ids(): Int32Array {
    let size = 0;
    this.each(() => {
      size += 1;
    });
    const ids = new Int32Array(size);
    let at = 0;
    this.each((id) => {
      ids[at] = id;
      at += 1;
    });
    return ids;
  }

  /** Calls `visit` with every id, ascending. */
  each(visit: (id: number) => void): void {
    const { words } = this;
    for (let at = 0; at < words.length; at += 1) {
      let word = words[at] ?? 0;
      while (word !== 0) {
        const low = word & -word;
        visit((at << 5) + 31 - Math.clz32(low));
        word ^= low;
      }
    }
  }
}
