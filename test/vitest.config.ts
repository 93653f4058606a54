import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    root: new URL('..', import.meta.url).pathname,
    include: ['test/**/*.test.{ts,tsx}'],
    setupFiles: ['test/support/say-seed.ts'],
    testTimeout: 60_000,
    hookTimeout: 60_000,
    // Each file is a process of its own: native modules (SQLite, sharp) and kill -9 tests want real processes.
    pool: 'forks',
    maxWorkers: 2,
  },
});
