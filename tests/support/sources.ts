/** The project's own source files and what each imports, for the tests that hold the architecture. */
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';

export const ROOT = fileURLToPath(new URL('../..', import.meta.url));

export interface Import {
  /** path of the file from the root, or the package's name */
  readonly to: string;
  readonly own: boolean;
  readonly typeOnly: boolean;
}

export interface Source {
  /** path from the root, with / */
  readonly path: string;
  readonly text: string;
  readonly imports: readonly Import[];
}

const STATEMENT = /^(?:import|export)\s+(type\s+)?((?:[\w*\s,]|\{[^}]*\})*?)\s*(?:from\s*)?'([^']+)'/gm;
const DYNAMIC = /\bimport(?:<[^>]*>)?\(\s*'([^']+)'\s*\)|new URL\('([^']+\.ts)', import\.meta\.url\)/g;

function importsOf(path: string, text: string): Import[] {
  const found = (spec: string, typeOnly: boolean): Import => {
    const own = spec.startsWith('.');
    return { to: own ? relative(ROOT, join(ROOT, dirname(path), spec.replace(/\?.*$/, ''))) : spec, own, typeOnly };
  };
  const still = [...text.matchAll(STATEMENT)].map(([, type, names = '', spec = '']) => {
    const inner = /^\{([^}]*)\}$/.exec(names.trim())?.[1];
    const each = inner
      ?.split(',')
      .map((n) => n.trim())
      .filter((n) => n !== '');
    return found(spec, type !== undefined || (each?.every((n) => n.startsWith('type ')) ?? false));
  });
  const moving = [...text.matchAll(DYNAMIC)].map(([, a, b]) => found(a ?? b ?? '', false));
  return [...still, ...moving];
}

/** Every .ts file below the folders, in order of path. */
export function readSources(...folders: readonly string[]): Source[] {
  return folders
    .flatMap((folder) => readdirSync(join(ROOT, folder), { recursive: true, encoding: 'utf8' }).map((f) => join(folder, f)))
    .filter((f) => f.endsWith('.ts'))
    .sort()
    .map((path) => {
      const text = readFileSync(join(ROOT, path), 'utf8');
      return { path, text, imports: importsOf(path, text) };
    });
}
