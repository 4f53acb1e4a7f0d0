import { defineConfig } from 'vitest/config';
import { nativeSources } from './tests/support/native-sources.js';

export default defineConfig({
  plugins: [nativeSources()],
  test: {
    include: ['tests/**/*.test.ts'],
    exclude: ['tests/e2e/**'],
    // Only against what never ends: a loaded machine takes its time.
    testTimeout: 600_000,
    hookTimeout: 600_000,
    // Files of one worker share modules: a third of the time. What those remember is forgotten before each test.
    isolate: false,
    globalSetup: ['tests/support/native-sources.ts'],
    setupFiles: ['tests/support/compile-late.ts', 'tests/support/forget.ts'],
    maxWorkers: '100%',
    // A watch does not see into modules of Node: whatever source is saved, the files that are watched run again.
    forceRerunTriggers: ['**/src/**/*.ts', '**/vitest.config.ts'],
    // What was transformed is kept by its content, and by where the sources lie that it imports.
    experimental: {
      fsModuleCache: true,
      fsModuleCachePath: `.cache/vitest${process.env.TUBWRIGHT_SOURCES ? '-mutated' : ''}`,
    },
  },
});
