/** Which tests a mutant is shown to, in which order: those that run its arm, the quick ones first. */
import { armAround } from './arms.ts';
import type { Mutant } from './mutant.ts';
import type { FileSurvey, TestChoice } from './protocol.ts';
import type { Survey } from './survey.ts';

export interface Choice {
  readonly choices: readonly TestChoice[];
  /** of the tests chosen */
  readonly tests: number;
  readonly leftOut: number;
}

/** Tests slower than this [ms] come after all quicker ones. */
const QUICK = 250;

/** What the loading of one more test file takes [ms]. */
const LOADING = 150;

interface Near {
  readonly file: string;
  readonly index: number;
  readonly ms: number;
  /** 0: it runs the arm; 1: it runs other code of the file; 2: it only loads the file */
  readonly distance: number;
}

/** Of the tests that have noticed other mutants of the file, so many come first. */
const FAVOURITES = 6;

/**
 * `budget` [ms]: tests are left out that together would take longer, the slowest first. `killers`: how many mutants of the same file each test
 * (file, space, index) has noticed.
 */
export function testsFor(mutant: Mutant, survey: Survey, budget: number, killers: ReadonlyMap<string, number> = new Map()): Choice {
  const own = survey.arms.get(mutant.path);
  const arm = own && armAround(own.arms, mutant);
  const first = own?.first ?? 0;
  const last = first + (own?.arms.length ?? 0);
  const near = survey.files.flatMap((f) => nearTests(f, mutant.path, arm === undefined ? undefined : first + arm, [first, last]));
  near.sort((a, b) => a.distance - b.distance || a.ms - b.ms);
  let spent = 0;
  const opened = new Set<string>();
  const taken = near.filter((t) => {
    const cost = t.ms + (opened.has(t.file) ? 0 : LOADING);
    const fits = spent === 0 || spent + cost <= budget;
    if (!fits) return false;
    spent += cost;
    opened.add(t.file);
    return true;
  });
  const kills = (t: Near) => killers.get(`${t.file} ${t.index}`) ?? 0;
  const favourites = taken
    .filter((t) => kills(t) > 0)
    .sort((a, b) => kills(b) - kills(a))
    .slice(0, FAVOURITES);
  const others = taken.filter((t) => !favourites.includes(t));
  const rounds = [
    favourites,
    others.filter((t) => t.distance < 2 && t.ms < QUICK),
    others.filter((t) => t.distance < 2 && t.ms >= QUICK),
    others.filter((t) => t.distance === 2),
  ];
  return { choices: rounds.flatMap(byFile), tests: taken.length, leftOut: near.length - taken.length };
}

function nearTests(f: FileSurvey, path: string, arm: number | undefined, [first, last]: readonly [number, number]): Near[] {
  if (f.broken || !f.loaded.includes(path)) return [];
  const all = f.tests.map((t, index) => ({ ...t, file: f.file, index })).filter((t) => t.passed);
  if (arm !== undefined) {
    const loading = f.loading.includes(arm);
    return all
      .filter((t) => loading || t.arms.includes(arm))
      .map(({ file, index, ms, arms }) => ({ file, index, ms, distance: arms.includes(arm) ? 0 : 1 }));
  }
  return all.map(({ file, index, ms, arms }) => ({ file, index, ms, distance: arms.some((a) => a >= first && a < last) ? 1 : 2 }));
}

/** Files whose chosen tests take the least time come first. */
function byFile(tests: readonly Near[]): TestChoice[] {
  const files = new Map<string, { ms: number; distance: number; tests: number[] }>();
  for (const t of tests) {
    const f = files.get(t.file) ?? { ms: 0, distance: t.distance, tests: [] };
    files.set(t.file, { ms: f.ms + t.ms, distance: Math.min(f.distance, t.distance), tests: [...f.tests, t.index] });
  }
  return [...files].sort(([, a], [, b]) => a.distance - b.distance || a.ms - b.ms).map(([file, f]) => ({ file, tests: f.tests }));
}
