/** Which files of the product are mutated, by rooms. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';

/** Not the product: benches that rules are tried on. */
const LEFT_OUT = new Set(['sim-core/findings/example-benches.ts']);

/** Folders (with / at the end) and files. A file belongs to the first room that names it. */
export const MUTATED: Readonly<Record<string, readonly string[]>> = {
  limits: [
    'sim-core/run/readout/stress-limits.ts',
    'sim-core/text/limits.ts',
    'sim-core/build/current-limits.ts',
    'sim-core/parts/figures/',
    'sim-core/parts/memory/data-sheet.ts',
  ],
  findings: ['sim-core/findings/'],
  tolerance: ['sim-core/tolerance/'],
  formats: ['sim-core/formats/'],
  'plan reading': [
    'shared/read-plan.ts',
    'shared/upgrade-plan.ts',
    'shared/json-syntax.ts',
    'shared/schema-text.ts',
    'shared/table-fits.ts',
  ],
  run: ['sim-core/run/'],
};

/** The files of each room in order of path. Throws if a folder or file that is named is not there. */
export function filesOfRooms(): Map<string, string[]> {
  const all = ['sim-core', 'shared']
    .flatMap((folder) => readdirSync(folder, { recursive: true, encoding: 'utf8' }).map((f) => join(folder, f)))
    .filter((f) => f.endsWith('.ts') && !LEFT_OUT.has(f))
    .sort();
  const taken = new Set<string>();
  return new Map(
    Object.entries(MUTATED).map(([room, names]) => {
      const files = names.flatMap((name) => {
        const found = all.filter((f) => (name.endsWith('/') ? f.startsWith(name) : f === name));
        if (found.length === 0) throw new Error(`tests/mutate/rooms.ts names ${name}, which is not there.`);
        return found.filter((f) => !taken.has(f));
      });
      for (const f of files) taken.add(f);
      return [room, files];
    }),
  );
}

/**
 * The test files that are about the product's core. Those of the server start processes of their own, in which no mutant is; those of the page keep
 * benches in a store that outlives a test file, so that they cannot be run twice in one process.
 */
export function testFiles(part: string): string[] {
  return ['tests/unit', 'tests/outside']
    .flatMap((folder) => readdirSync(folder).map((f) => join(folder, f)))
    .filter((f) => f.endsWith('.test.ts') && f.includes(part) && !closureOf(f).some((c) => c.startsWith('client/')))
    .sort();
}

/** The file and all of the project that it loads, as its imports say. */
export function closureOf(file: string): string[] {
  const found = new Set([file]);
  for (const f of found) {
    if (!f.endsWith('.ts')) continue;
    for (const [, to = ''] of readFileSync(f, 'utf8').matchAll(/(?:from|import)\s*\(?\s*'(\.[^'?]+)[^']*'/g)) {
      const path = join(dirname(f), to);
      if (existsSync(path)) found.add(path);
    }
  }
  return [...found].sort();
}
