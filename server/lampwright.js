#!/usr/bin/env node
/** `lampwright` in the shell: builds the command line if it is missing or older than its sources, then runs it. */
import { mkdirSync, mkdtempSync, readdirSync, renameSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
const folder = join(root, 'dist/server');
const bundle = join(folder, 'cli.js');
const sources = ['package.json', 'vite.config.ts', 'server', 'shared', 'sim-core'].map((name) => join(root, name));

/** When a file, or the newest one in a folder, was changed; 0 if there is none [ms]. */
function changedAt(path) {
  const found = statSync(path, { throwIfNoEntry: false });
  if (!found?.isDirectory()) return found?.mtimeMs ?? 0;
  return Math.max(...readdirSync(path).map((name) => changedAt(join(path, name))));
}

/** Into a folder of its own, then moved: another run may be reading the bundle. */
async function build() {
  const { build } = await import('vite');
  mkdirSync(folder, { recursive: true });
  const outDir = mkdtempSync(join(folder, 'cli-'));
  const here = process.cwd();
  process.chdir(root); // paths in the configuration are relative to it
  try {
    await build({
      logLevel: 'error',
      build: { ssr: '../server/cli.ts' },
      environments: { ssr: { build: { outDir, emptyOutDir: false } } },
    });
  } finally {
    process.chdir(here);
  }
  renameSync(join(outDir, 'cli.js'), bundle);
  rmSync(outDir, { recursive: true });
}

if (changedAt(bundle) < Math.max(...sources.map(changedAt))) await build();
await import(pathToFileURL(bundle).href);
