/** `npm run trials [name]`: the same trials as in the tests, thousands of cases each; their tables are printed as they are done. */
import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    name: 'trials',
    include: ['tests/trials/**/*.test.ts'],
    environment: 'node',
    env: { TRIALS: 'full' },
    maxWorkers: '100%',
    // an hour a trial
    testTimeout: 3_600_000,
    disableConsoleIntercept: true,
  },
});
