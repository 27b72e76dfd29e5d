/** The second worker: long work on copies, so that no flip waits for it. One job at a time; whoever changes their mind ends the worker. */
import type { Plan } from '../../shared/plan.ts';
import {
  beginProof,
  buildPlan,
  compareImages,
  done,
  gatesFor,
  hexAddress,
  minimise,
  type Outcome,
  programmingCard,
  rowOf,
  type SumOfProducts,
  sayComparison,
  sheetFor,
  startTable,
  type TruthTable,
  tableOfRules,
  tableOfWords,
  wishOf,
} from '../../sim-core/index.ts';
import type { Compared, Job, JobResult, Proven, Reckoned, Shown, Sums, TableSource } from './jobs.ts';

/** A slice of a sweep takes so many rows, and progress is told no more often than this [ms]. */
const SLICE = 256;
const TELL_EVERY = 60;

const tell = (message: Reckoned) => postMessage(message);

function sweep(plan: Extract<Job, { job: 'shown' }>['plan'], progress: (part: number) => void): Outcome<Shown> {
  const begun = beginProof(plan);
  if (!begun.ok) return begun;
  const proving = begun.value;
  while (!proving.go(SLICE)) progress(proving.seen / proving.shown.length);
  const { inputs, shown, unknown } = proving;
  return done({ inputs, value: shown, unknown });
}

function proven(plan: Plan, progress: (part: number) => void): Outcome<Proven> {
  const begun = beginProof(plan);
  if (!begun.ok) return begun;
  const proving = begun.value;
  while (!proving.go(SLICE)) progress(proving.seen / proving.proof.rows);
  return done({ ...proving.proof, inputs: proving.inputs });
}

const tableOf = (source: TableSource): Outcome<TruthTable> =>
  'rules' in source
    ? tableOfRules(source.inputs, source.outputs, source.rules)
    : tableOfWords(source.inputs, source.outputs, source.rows, source.free);

function sumsOf(table: TruthTable, progress: (part: number) => void): Outcome<Sums> {
  const sums: SumOfProducts[] = [];
  for (const output of table.outputs.keys()) {
    sums.push(minimise(table, output, (part) => progress((output + part) / table.outputs.length)));
  }
  return done({ sums, narrow: gatesFor(sums, 2), wide: gatesFor(sums, 4) });
}

function compare({ wanted, seen, dataPins, pins }: Extract<Job, { job: 'compare' }>): Outcome<Compared> {
  const found = compareImages(wanted, seen, dataPins);
  if (!found.ok) return found;
  const placeOf = (address: number) => {
    const row = pins && rowOf(pins, address);
    return row === undefined ? `address ${hexAddress(address, wanted.bytes.length)}` : `row ${row}`;
  };
  return done({ says: sayComparison(found.value, placeOf), differs: found.value.differs });
}

function result(job: Job, progress: (part: number) => void): Outcome<JobResult[Job['job']]> {
  switch (job.job) {
    case 'shown':
      return sweep(job.plan, progress);
    case 'sums':
      return sumsOf(job.table, progress);
    case 'compare':
      return compare(job);
    case 'start':
      return startTable(job.plan);
    case 'build': {
      const table = tableOf(job.table);
      return table.ok ? buildPlan(wishOf(table.value, job.choices)) : table;
    }
    case 'card':
      return programmingCard(job.plan);
    case 'sheet':
      return sheetFor(job.plan);
    case 'prove':
      return proven(job.plan, progress);
  }
}

addEventListener('message', (e: MessageEvent<Job>) => {
  let toldAt = performance.now();
  const progress = (part: number) => {
    const now = performance.now();
    if (now - toldAt < TELL_EVERY) return;
    toldAt = now;
    tell({ part });
  };
  tell({ result: result(e.data, progress) });
});
