import { describe, expect, it } from 'vitest';
import { pageWords } from '../../../renderer/rolls/roll-columns.tsx';

describe('the page column', () => {
  it('says the binder once for several pages', () => {
    const page = (binder: string, number: number) => ({ pageId: number, binder, page: number });
    expect(pageWords([])).toBe('');
    expect(pageWords([page('7', 31)])).toBe('7, page 31');
    expect(pageWords([page('7', 32), page('7', 31), page('9', 2)])).toBe('7, pages 31 and 32; 9, page 2');
  });
});
