/** `npm run mutate`: plants small mistakes in a seeded sample of places, and says which of them the tests notice. */
import { readFileSync, writeFileSync } from 'node:fs';
import { mutantsOf, randomFrom, shuffled } from './candidates.ts';
import { equivalentOf } from './equivalents.ts';
import type { Mutant, Verdict } from './mutant.ts';
import { type Options, readOptions, USAGE } from './options.ts';
import { killedShare, line, table } from './report.ts';
import { filesOfRooms, MUTATED, testFiles } from './rooms.ts';
import { surveyOf } from './survey.ts';
import { tryAll } from './trials.ts';
import { TypeCheck } from './well-typed.ts';

/** So many more than wanted are taken to the compiler first, by and by more. */
const SURPLUS = 1.3;

function sampleOf(options: Options, files: ReadonlyMap<string, readonly string[]>): Mutant[] {
  const all = new Map(
    [...files]
      .filter(([room]) => options.rooms.length === 0 || options.rooms.includes(room))
      .map(([room, paths]) => [room, paths.filter((p) => p.includes(options.file)).flatMap((p) => mutantsOf(p, room))] as const),
  );
  console.log(
    `${[...all.values()].reduce((n, l) => n + l.length, 0)} mutants are possible in these rooms; the sample of ${options.sample} has the seed ${options.seed}.`,
  );
  const compiler = new TypeCheck();
  const rooms = [...shuffled(all, options.seed, options.sample).values()].map((r) => ({ ...r, good: [] as Mutant[], next: 0 }));
  let refused = 0;
  // all rooms together, since one round of the compiler takes a mutant of every file
  for (;;) {
    const open = rooms.filter((r) => r.good.length < r.wanted && r.next < r.order.length);
    if (open.length === 0) break;
    const more = open.map((r) => r.order.slice(r.next, r.next + Math.ceil((r.wanted - r.good.length) * SURPLUS)));
    const accepted = new Set(compiler.accepted(more.flat()));
    for (const [i, r] of open.entries()) {
      r.next += more[i]?.length ?? 0;
      for (const m of more[i] ?? []) {
        if (r.good.length === r.wanted) break;
        if (accepted.has(m)) r.good.push(m);
        else refused++;
      }
    }
  }
  const sample = rooms.flatMap((r) => r.good);
  console.log(`The compiler refused ${refused} more; they are not counted.`);
  return sample;
}

/** Of an earlier run: what is tried again, and what stays as it was. Throws if the product has changed at one of the places since. */
function earlier(path: string): { mutants: Mutant[]; kept: Verdict[] } {
  const verdicts = JSON.parse(readFileSync(path, 'utf8')) as Verdict[];
  const open = verdicts.filter((v) => v.fate === 'survived' || v.fate === 'not covered' || v.fate === 'equivalent');
  for (const { mutant: m } of open)
    if (readFileSync(m.path, 'utf8').slice(m.start, m.end) !== m.before)
      throw new Error(`${m.path}:${m.line} has changed since ${path} was written: take a new sample.`);
  return { mutants: open.map((v) => v.mutant), kept: verdicts.filter((v) => !open.includes(v)) };
}

async function main(args: readonly string[]): Promise<void> {
  const options = readOptions(args, Object.keys(MUTATED));
  const files = filesOfRooms();
  const began = performance.now();
  const { mutants, kept } = options.again === undefined ? { mutants: sampleOf(options, files), kept: [] } : earlier(options.again);
  const survey = await surveyOf(testFiles(options.tests), [...files.values()].flat(), options.workers);
  for (const f of survey.files) {
    const failed = f.tests.filter((t) => !t.passed).length;
    if (f.broken || failed > 0) console.log(`Left out, since it fails without a mutant: ${f.file} (${f.broken ?? `${failed} tests`})`);
  }
  const planted = mixed(options.nothing ? mutants.map((m) => ({ ...m, after: m.before })) : mutants, options.seed);
  const seen: Verdict[] = [];
  // stopped early, what has been tried is a sample too
  for (const signal of ['SIGINT', 'SIGTERM'] as const)
    process.once(signal, () => {
      report(sorted([...kept, ...seen]), options, (performance.now() - began) / 60_000);
      process.exit();
    });
  await tryAll(planted, survey, options, (found, done) => {
    const v = judged(found);
    seen.push(v);
    if (done % 20 === 0) console.log(`${done} of ${planted.length}, ${((performance.now() - began) / 60_000).toFixed(1)} min`);
    if (v.fate === 'survived' || v.fate === 'not covered') console.log(`  ${v.fate}: ${line(v)}`);
  });
  report(sorted([...kept, ...seen]), options, (performance.now() - began) / 60_000);
}

/** What no test noticed may be one of those that none can. */
function judged(v: Verdict): Verdict {
  const known = equivalentOf(v.mutant, readFileSync(v.mutant.path, 'utf8'));
  if (!known) return v;
  if (v.fate === 'survived' || v.fate === 'not covered') return { ...v, fate: 'equivalent' };
  console.log(`Listed as equivalent, and noticed: ${line(v)} by ${v.by}`);
  return v;
}

/** In an order of chance, so that the rooms take turns. */
function mixed(mutants: readonly Mutant[], seed: number): Mutant[] {
  const random = randomFrom(seed);
  return mutants
    .map((m) => [random(), m] as const)
    .sort(([a], [b]) => a - b)
    .map(([, m]) => m);
}

/** By rooms, then by place. */
function sorted(verdicts: readonly Verdict[]): Verdict[] {
  const rooms = Object.keys(MUTATED);
  return [...verdicts].sort(
    ({ mutant: a }, { mutant: b }) =>
      rooms.indexOf(a.room) - rooms.indexOf(b.room) || (a.path < b.path ? -1 : a.path > b.path ? 1 : a.start - b.start),
  );
}

function report(verdicts: readonly Verdict[], options: Options, minutes: number): void {
  for (const fate of ['equivalent', 'survived', 'not covered'] as const) {
    console.log(`\n${fate[0]?.toUpperCase()}${fate.slice(1)}:`);
    for (const v of verdicts) if (v.fate === fate) console.log(`  ${line(v)}`);
  }
  console.log(
    `\n${options.again === undefined ? `Seed ${options.seed}` : options.again}, ${verdicts.length} mutants, ${minutes.toFixed(1)} minutes:\n`,
  );
  console.log(table([...new Set(verdicts.map((v) => v.mutant.room))], verdicts));
  if (options.out) writeFileSync(options.out, JSON.stringify(verdicts, null, 1));
  if (killedShare(verdicts) < options.least) {
    console.log(`\nFewer than ${options.least} % were noticed.`);
    process.exitCode = 1;
  }
}

try {
  await main(process.argv.slice(1).filter((a, i) => !(i === 0 && a === '--')));
} catch (e) {
  console.error(`${e instanceof Error ? e.message : e}\n\n${USAGE}`);
  process.exitCode = 2;
}
