/** The workshop's worker: builds and proves on copies of the plan, so that the live bench never waits. One job, then it is ended. */
import type { Plan } from '../../shared/plan.ts';
import {
  beginProof,
  buildPlan,
  done,
  type Outcome,
  programmingCard,
  sheetFor,
  type TruthTable,
  tableOfRules,
  tableOfWords,
  wishOf,
} from '../../sim-core/index.ts';
import type { Proven, TableSource, WorkshopJob, WorkshopResult, WorkshopTell } from './workshop-jobs.ts';

/** Rows between two looks at the clock, and how often progress is told [ms]. */
const SLICE = 64;
const TELL_EVERY = 60;

const tell = (message: WorkshopTell) => postMessage(message);

const tableOf = (source: TableSource): Outcome<TruthTable> =>
  'rules' in source
    ? tableOfRules(source.inputs, source.outputs, source.rules)
    : tableOfWords(source.inputs, source.outputs, source.rows, source.free);

function prove(plan: Plan): Outcome<Proven> {
  const begun = beginProof(plan);
  if (!begun.ok) return begun;
  const proving = begun.value;
  let toldAt = performance.now();
  while (!proving.go(SLICE)) {
    if (performance.now() - toldAt < TELL_EVERY) continue;
    toldAt = performance.now();
    tell({ seen: proving.seen, of: proving.proof.rows });
  }
  return done({ ...proving.proof, inputs: proving.inputs });
}

function result(job: WorkshopJob): Outcome<WorkshopResult[WorkshopJob['job']]> {
  switch (job.job) {
    case 'build': {
      const table = tableOf(job.table);
      return table.ok ? buildPlan(wishOf(table.value, job.choices)) : table;
    }
    case 'card':
      return programmingCard(job.plan);
    case 'sheet':
      return sheetFor(job.plan);
    case 'prove':
      return prove(job.plan);
  }
}

addEventListener('message', (e: MessageEvent<WorkshopJob>) => tell({ result: result(e.data) }));
