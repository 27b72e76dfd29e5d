/** Tests: `unit` in Node and in seconds, `e2e` in a browser against the built app. */
import { defineConfig } from 'vitest/config';
import { coverage } from './tests/support/coverage.ts';

/** A test that takes so long hangs [ms]. How fast something is, is measured by the benches: a busy machine is no fault. */
const LONGEST = 600_000;

export default defineConfig({
  test: {
    coverage,
    reporters: ['default', './tests/support/closing.ts'],
    // every core: what is left idle would double the time of two
    maxWorkers: '100%',
    projects: [
      {
        test: {
          name: 'unit',
          include: ['tests/{unit,outside,server,trials}/**/*.test.ts'],
          setupFiles: ['tests/support/seeded.ts'],
          environment: 'node',
          testTimeout: LONGEST,
          // the files of a worker share their modules: loading sim-core once a file was half of the time; what a test replaces it puts back
          isolate: false,
          sequence: { groupOrder: 0 },
        },
      },
      {
        test: {
          name: 'e2e',
          include: ['tests/e2e/**/*.test.ts'],
          environment: 'node',
          globalSetup: ['tests/support/global.ts'],
          testTimeout: LONGEST,
          hookTimeout: LONGEST,
          // the files of a worker share its browser; each test has a context of its own
          isolate: false,
          // after the others, so that no page waits for a core
          sequence: { groupOrder: 1 },
        },
      },
    ],
  },
});
