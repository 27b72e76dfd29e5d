/** What ships: every bundle of the page, of its worker and of the server holds no rule's example bench and nothing of the tests. */
import { join, relative } from 'node:path';
import { build, type Rolldown } from 'vite';
import { describe, expect, test } from 'vitest';
import { RULES } from '../../sim-core/findings/catalogue.ts';
import { FED } from '../../sim-core/findings/example-benches.ts';
import { ROOT, readSources } from '../support/sources.ts';

const TEST_DATA = /Examples$/;

/** Everything that is built from this file: neither written nor minified. */
async function modulesOf(entry: string): Promise<ReadonlyMap<string, Rolldown.RenderedModule>> {
  const file = join(ROOT, entry);
  const ends = entry.startsWith('server/') ? { ssr: file } : { rolldownOptions: { input: file } };
  const built = await build({
    root: ROOT,
    configFile: false,
    logLevel: 'silent',
    worker: { format: 'es' },
    build: { write: false, minify: false, copyPublicDir: false, assetsInlineLimit: 0, ...ends },
  });
  const outputs = (Array.isArray(built) ? built : [built]).flatMap((b) => ('output' in b ? b.output : []));
  return new Map(
    outputs.flatMap((o) => (o.type === 'chunk' ? Object.entries(o.modules).map(([id, m]) => [relative(ROOT, id), m] as const) : [])),
  );
}

test('the names that are looked for are those of the test data', () => {
  const named = readSources('sim-core').flatMap((s) =>
    [...s.text.matchAll(/^export const (\w+)/gm)].filter(([, name = '']) => TEST_DATA.test(name)),
  );
  expect(named.length).toBeGreaterThanOrEqual(RULES.length);
});

describe.each(['client/main.ts', 'client/worker/worker.ts', 'server/main.ts', 'server/cli.ts', 'server/check-job.ts'])(
  'what is built from %s',
  (entry) => {
    test('holds the product and no test data', async () => {
      const modules = await modulesOf(entry);
      const shipped = [...modules].filter(([, m]) => m.renderedLength > 0);
      expect(shipped.length).toBeGreaterThan(20);
      const names = shipped.flatMap(([path, m]) =>
        m.renderedExports.filter((name) => TEST_DATA.test(name)).map((name) => `${path}: ${name}`),
      );
      expect(names).toEqual([]);
      expect(shipped.map(([path]) => path).filter((path) => /example|^tests\//.test(path))).toEqual([]);
      const [line = ''] = FED.trim().split('\n').slice(2);
      expect(shipped.filter(([, m]) => m.code?.includes(line.trim())).map(([path]) => path)).toEqual([]);
    });
  },
);

test('the page leaves the simulation to its worker: it holds none of its rooms', async () => {
  const modules = await modulesOf('client/main.ts');
  const shipped = [...modules].filter(([, m]) => m.renderedLength > 0).map(([path]) => path);
  expect(shipped.filter((path) => /^sim-core\/(solve|why|repair)\/|^sim-core\/run\/(simulation|analog|circuit)/.test(path))).toEqual([]);
});
