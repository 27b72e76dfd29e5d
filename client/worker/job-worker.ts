/** The second worker: long work on copies, so that no flip waits for it. One job at a time; whoever changes their mind ends the worker. */
import type { Plan } from '../../shared/plan.ts';
import {
  chipNames,
  compareImages,
  done,
  draftPlan,
  explainedProof,
  formsOf,
  gatesFor,
  handOver,
  minimise,
  type Outcome,
  programmingCard,
  readingBand,
  requestOfTable,
  ruledBy,
  type SumOfProducts,
  sayComparison,
  sayRepair,
  sayRepairsFound,
  searchRepairs,
  sheetFor,
  startTable,
  type TruthTable,
  tableOfRules,
  tableOfWords,
  tidyWiring,
  usualCauses,
} from '../../sim-core/index.ts';
import { type Helpers, seeAll, seeShare } from './all-rows.ts';
import type { Clock } from './clock.ts';
import type { ImagesCompared, Job, JobMessage, JobResult, JobSums, Repairs, TableSource } from './jobs.ts';
import type { Port } from './port.ts';
import { wholeCheck } from './whole-check.ts';

/** Progress is told no more often than this [ms]. */
const TELL_EVERY = 60;

const tableOf = (source: TableSource): Outcome<TruthTable> =>
  'rules' in source
    ? tableOfRules(source.inputs, source.outputs, source.rules)
    : tableOfWords(source.inputs, source.outputs, source.rows, source.free);

function sumsOf(table: TruthTable, progress: (part: number) => void): Outcome<JobSums> {
  const sums: SumOfProducts[] = [];
  for (const output of table.outputs.keys()) {
    sums.push(minimise(table, output, (part) => progress((output + part) / table.outputs.length)));
  }
  const forms = formsOf(table, sums);
  return done({ sums, forms, narrow: gatesFor(forms, 2), wide: gatesFor(forms, 4) });
}

function compare({ wanted, seen, dataPins, of }: Extract<Job, { job: 'compare' }>): Outcome<ImagesCompared> {
  const found = compareImages(wanted, seen, dataPins);
  if (!found.ok) return found;
  return done({ says: sayComparison(found.value, of && chipNames(of.pins, of.outputs)), differs: found.value.differs });
}

/** Moves that are tried for each wire with each seed: half a second on a bench of fifty wires. */
const TIDY = { tries: 150, seeds: [1, 2, 3, 4] } as const;

function repairsOf(plan: Plan, progress: (part: number) => void): Outcome<Repairs> {
  for (const search = searchRepairs(plan); ; ) {
    const { done: over, value } = search.next();
    if (!over) {
      progress(value.tried / value.of);
      continue;
    }
    if (!value.ok) return value;
    const { repairs } = value.value;
    return done({
      heading: sayRepairsFound(value.value),
      repairs: repairs.map(({ change }) => ({ says: sayRepair(change, plan), change })),
    });
  }
}

async function result(job: Job, helpers: Helpers, progress: (part: number) => void): Promise<Outcome<JobResult[Job['job']]>> {
  switch (job.job) {
    case 'shown': {
      const seen = await seeAll(job.plan, helpers, progress);
      return seen.ok ? done({ inputs: seen.value.proof.inputs, value: seen.value.shown, unknown: seen.value.unknown }) : seen;
    }
    case 'share':
      return seeShare(job.plan, job.share, progress);
    case 'sums':
      return sumsOf(job.table, progress);
    case 'compare':
      return compare(job);
    case 'rules':
      return ruledBy(job.inputs, job.outputs, job.text);
    case 'start':
      return startTable(job.plan);
    case 'build': {
      const table = tableOf(job.table);
      if (!table.ok) return table;
      const request = requestOfTable(table.value, job.choices);
      const draft = draftPlan(request);
      if (!draft.ok) return draft;
      const seen = await seeAll(draft.value.loaded, helpers, progress);
      return seen.ok ? handOver(request, draft.value, seen.value.proof) : seen;
    }
    case 'card':
      return programmingCard(job.plan);
    case 'sheet':
      return sheetFor(job.plan);
    case 'causes':
      return usualCauses(job.plan, job.check, job.read, progress);
    case 'tidy':
      return tidyWiring(job.plan, { ...TIDY, locked: job.locked });
    case 'band':
      return readingBand(job.plan, job.of, progress);
    case 'prove': {
      const seen = await seeAll(job.plan, helpers, progress);
      return seen.ok ? done(explainedProof(job.plan, seen.value)) : seen;
    }
    case 'check':
      return wholeCheck(job.plan);
    case 'repair':
      return repairsOf(job.plan, progress);
  }
}

export interface JobLoopSetting {
  readonly port: Port<Job, JobMessage>;
  readonly clock: Clock;
  readonly helpers: Helpers;
  /** what was thrown reaches whoever began this worker only by this */
  fail(error: unknown): void;
}

/** Does what comes by the port until the worker ends. */
export function createJobLoop({ port, clock, helpers, fail }: JobLoopSetting): void {
  port.listen((job) => {
    let toldAt = clock.now();
    const progress = (part: number) => {
      const now = clock.now();
      if (now - toldAt < TELL_EVERY) return;
      toldAt = now;
      port.post({ part });
    };
    result(job, helpers, progress).then((found) => port.post({ result: found }), fail);
  });
}
