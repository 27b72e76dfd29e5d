/** Tests: `unit` in Node and in seconds, `e2e` in a browser against the built app. */
import { defineConfig } from 'vitest/config';
import { coverage } from './tests/support/coverage.ts';

export default defineConfig({
  test: {
    coverage,
    reporters: ['default', './tests/support/closing.ts'],
    projects: [
      { test: { name: 'unit', include: ['tests/{unit,outside,server}/**/*.test.ts'], environment: 'node', testTimeout: 30_000 } },
      {
        test: {
          name: 'e2e',
          include: ['tests/e2e/**/*.test.ts'],
          environment: 'node',
          globalSetup: ['tests/support/global.ts'],
          testTimeout: 60_000,
          hookTimeout: 30_000,
        },
      },
    ],
  },
});
