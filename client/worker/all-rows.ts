/** Every row of a bench gone through: by one worker where rows are solved without events, else shared among as many as the machine has cores for, each on a copy of its own. */
import type { Plan } from '../../shared/plan.ts';
import { beginProof, done, joinShares, type Outcome, type Proving, type Share } from '../../sim-core/index.ts';
import type { JobMessage, JobWorker, SweptBench } from './jobs.ts';

/** A slice takes so many rows, then progress is told. */
const SLICE = 256;
/** Below so many rows a share costs more to begin than it saves, even if each needs the event engine; our choice. */
const WORTH_SHARING = 2048;
/** Rows after which it is asked whether the others need the event engine: what is new to it comes first. */
const TRIED = 512;
/** More workers than this are not begun, however many cores there are: each holds a bench of its own. */
const MOST_SHARES = 4;

/** Who helps with the rows of a bench. */
export interface Helpers {
  readonly cores: number;
  /** another worker that takes a share; undefined where none can be begun */
  start(): JobWorker | undefined;
}

/** This share alone. */
export function seeShare(plan: Plan, share: Share, progress: (part: number) => void): Outcome<SweptBench> {
  const begun = beginProof(plan, {}, share);
  return begun.ok ? done(seeRest(begun.value, share.of, progress)) : begun;
}

function seeRest(proving: Proving, of: number, progress: (part: number) => void): SweptBench {
  while (!proving.go(SLICE)) progress(proving.seen / (proving.shown.length / of));
  const { proof, shown, unknown } = proving;
  return { proof, shown, unknown };
}

/** All of them. progress: of the share that is done here, which ends about when the others do. */
export async function seeAll(plan: Plan, helpers: Helpers, progress: (part: number) => void): Promise<Outcome<SweptBench>> {
  const rows = 2 ** (plan.wanted?.inputs.length ?? 0);
  const of = Math.min(MOST_SHARES, helpers.cores, Math.max(1, Math.floor(rows / WORTH_SHARING)));
  const alone = beginProof(plan);
  if (!alone.ok) return alone;
  // a row without events takes less than its part of what another bench and its worker take to begin
  if (of === 1 || alone.value.go(TRIED) || 2 * alone.value.solved > alone.value.seen) return done(seeRest(alone.value, 1, progress));
  const elsewhere = Array.from({ length: of - 1 }, (_, k) => seeElsewhere(plan, { part: k + 1, of }, helpers));
  const shares = [seeShare(plan, { part: 0, of }, progress), ...(await Promise.all(elsewhere))];
  const seen: SweptBench[] = [];
  for (const share of shares) {
    if (!share.ok) return share;
    seen.push(share.value);
  }
  return done(joinShares(seen));
}

/** One share in a worker of its own; where that cannot be begun, or ends without an answer, here after all. */
async function seeElsewhere(plan: Plan, share: Share, helpers: Helpers): Promise<Outcome<SweptBench>> {
  const worker = helpers.start();
  const seen = worker && (await askAnother(worker, plan, share));
  return seen ?? seeShare(plan, share, () => {});
}

function askAnother(worker: JobWorker, plan: Plan, share: Share): Promise<Outcome<SweptBench> | undefined> {
  return new Promise((resolve) => {
    const settle = (seen: Outcome<SweptBench> | undefined) => {
      worker.terminate();
      resolve(seen);
    };
    worker.onerror = () => settle(undefined);
    worker.onmessage = ({ data }: MessageEvent<JobMessage>) => {
      if ('result' in data) settle(data.result as Outcome<SweptBench>);
    };
    worker.postMessage({ job: 'share', plan, share });
  });
}
