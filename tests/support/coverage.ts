/** Which files `npm run coverage` counts, and below which share of lines it fails. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

/** What draws by templates or by nodes of a picture: whether it is right is seen in a browser, and tests/e2e looks there. */
const DRAWS = /from 'lit|from '(?:\.\.?\/)+(?:scene\/)?svg\.ts'|createElementNS/;

/** What only passes on to the browser, by file and reason. */
const BROWSER: Readonly<Record<string, string>> = {
  'client/main.ts': 'sets up the page',
  'client/worker/worker.ts': 'gives the worker loop its port',
};

/** The client's files that decide something: all that neither draw nor only pass on. */
const clientLogic = (): string[] =>
  readdirSync('client', { recursive: true, encoding: 'utf8' })
    .map((f) => join('client', f))
    .filter((f) => f.endsWith('.ts') && !(f in BROWSER) && !DRAWS.test(readFileSync(f, 'utf8')))
    .sort();

const client = clientLogic();

export const coverage = {
  provider: 'v8' as const,
  reportsDirectory: 'node_modules/.cache/lampwright-coverage',
  reporter: ['text-summary', ['text', { skipFull: true, maxCols: 120 }]] as [
    'text-summary',
    ['text', { skipFull: boolean; maxCols: number }],
  ],
  include: ['sim-core/**/*.ts', ...client],
  thresholds: { 'sim-core/**': { lines: 95 }, [`{${client.join(',')}}`]: { lines: 85 } },
};
