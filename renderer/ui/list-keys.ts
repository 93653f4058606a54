/** Where a key moves to in a list of `count` things of which `at` is the present one; null when it does not move. */
export function moveInList(key: string, at: number, count: number, page: number): number | null {
  if (count === 0) return null;
  const last = count - 1;
  switch (key) {
    case 'ArrowDown':
      return Math.min(at + 1, last);
    case 'ArrowUp':
      return Math.max(at - 1, 0);
    case 'PageDown':
      return Math.min(at + page, last);
    case 'PageUp':
      return Math.max(at - page, 0);
    case 'Home':
      return 0;
    case 'End':
      return last;
    default:
      return null;
  }
}

/** The next of `names` after `at`, going round, that begins with `typed`; null when none does. */
export function findByTyping(names: readonly string[], typed: string, at: number): number | null {
  const wanted = typed.toLocaleLowerCase();
  for (let step = 1; step <= names.length; step += 1) {
    const index = (at + step) % names.length;
    if (names[index]?.toLocaleLowerCase().startsWith(wanted) === true) return index;
  }
  return null;
}
