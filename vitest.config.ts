import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    exclude: ['tests/e2e/**'],
    // Only against what never ends: a loaded machine takes its time.
    testTimeout: 600_000,
    hookTimeout: 600_000,
    // Files of one worker share modules: a third of the time. What those remember is forgotten before each test.
    isolate: false,
    setupFiles: ['tests/support/forget.ts'],
    maxWorkers: '100%',
    // What was transformed is kept by its content: one file starts in two thirds of the time.
    experimental: { fsModuleCache: true, fsModuleCachePath: '.cache/vitest' },
  },
});
