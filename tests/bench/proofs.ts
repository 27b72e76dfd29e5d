/** The proof of the widest build, 65 536 rows of sixteen outputs: by one thread, and shared between two, which pays only where rows need the event engine. */
import { Worker, workerData } from 'node:worker_threads';
import type { Plan } from '../../shared/plan.ts';
import { beginProof, joinShares, proveTable, type TableProof } from '../../sim-core/index.ts';
import { wideBuild } from '../support/wide-build.ts';
import { inTurns, ms, printTable, times, took, value } from './measure.ts';
import { keep } from './report.ts';
import { floorOf } from './sweeps.ts';

const ROWS = 65536;

type Seen = Parameters<typeof joinShares>[0][number];

/** From the plan to what was seen of one share of its rows. */
function see(plan: Plan, part: number, of: number): Seen {
  const proving = value(beginProof(plan, {}, { part, of }));
  proving.go(Number.POSITIVE_INFINITY);
  const { proof, shown, unknown } = proving;
  return { proof, shown, unknown };
}

/** What the other thread does, in which the same program is loaded. */
export const seeWorkersShare = (): Seen => see(workerData, 1, 2);

async function shared(plan: Plan): Promise<TableProof> {
  const worker = new Worker(process.argv[1] as string, { workerData: plan });
  const other = new Promise<Seen>((resolve, reject) => worker.once('message', resolve).once('error', reject));
  // the share here must not keep the other thread from starting
  await new Promise((resolve) => worker.once('online', resolve));
  const mine = see(plan, 0, 2);
  return joinShares([mine, await other]).proof;
}

const right = (proof: TableProof): void => {
  if (proof.right !== ROWS) throw new Error('the build does not prove');
};

export async function benchProofs(): Promise<void> {
  const [floor] = inTurns([{ work: floorOf(2, ROWS), times: 3 }] as const, 3);
  const table = [
    [
      '65 536 rows × 16 outputs, every row solved and its LEDs compared',
      'ms',
      'µs a row',
      'floor ms',
      'ratio',
      'two threads ms',
      'by events ms',
      'ratio',
    ],
  ];
  for (const [name, key, plan] of [
    ['two memories, LEDs at their pins', 'proof of 65 536 rows, no buffers', wideBuild({ buffered: false, amps: 2e-3 })],
    ['two memories, two buffers, LEDs', 'proof of 65 536 rows, two buffers', wideBuild()],
  ] as const) {
    const alone = took(() => right(see(plan, 0, 1).proof));
    const t2 = performance.now();
    right(await shared(plan));
    const two = performance.now() - t2;
    const events = took(() => right(value(proveTable(plan, { rows: 'events' }))));
    // every row's LEDs were compared with the table's in both
    keep(key, alone, 'ms', 'no LED');
    keep(`${key}, by events`, events);
    table.push([
      name,
      ms(alone),
      ((1000 * alone) / ROWS).toFixed(1),
      ms(floor),
      times(alone / floor),
      ms(two),
      ms(events),
      times(events / alone),
    ]);
  }
  printTable('Proof, from the plan on', table);
}
