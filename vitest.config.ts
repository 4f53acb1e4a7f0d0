import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    exclude: ['tests/e2e/**'],
    testTimeout: 60_000,
    hookTimeout: 60_000,
    // Nothing that the tests load changes what others load, so files of one worker share modules: a third of the time.
    isolate: false,
    maxWorkers: '100%',
  },
});
