/** Which files of the product are mutated, by rooms. */
import { readdirSync } from 'node:fs';
import { join } from 'node:path';

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

/** The test files that run in this process; those of the server start processes of their own, in which no mutant is. */
export function testFiles(part: string): string[] {
  return ['tests/unit', 'tests/outside']
    .flatMap((folder) => readdirSync(folder).map((f) => join(folder, f)))
    .filter((f) => f.endsWith('.test.ts') && f.includes(part))
    .sort();
}
