/** Walks over every row: on a fresh bench, again on the same bench, and as the first thing a process does; the row engine beside the event engine. */
import { Worker } from 'node:worker_threads';
import type { Plan } from '../../shared/plan.ts';
import { sweep } from '../../sim-core/index.ts';
import { RowWalker } from '../../sim-core/run/row-walk.ts';
import { simulate } from '../../sim-core/run/simulation.ts';
import { switchedInputs } from '../../sim-core/run/switched-inputs.ts';
import { contents, manyMemories } from './benches.ts';
import { inTurns, memories as many, median, middle, ms, printTable, times, took, value } from './measure.ts';
import { keep } from './report.ts';
import { wideMemory } from './wide-memory.ts';

const ROWS = 2048;
const WIDE_ROWS = 32_768;

/** A fresh bench, and what walks it; making that is a part of the first walk. events: by the event engine alone. */
function walkable(plan: Plan, events: boolean): () => RowWalker {
  const sim = value(simulate(plan, { still: true }));
  const inputs = switchedInputs(sim);
  return () => new RowWalker(sim, inputs, { part: 0, of: 1 }, events);
}

/** Goes through every row; throws if there were not so many. */
function through(walk: RowWalker, rows: number): void {
  let seen = 0;
  while (walk.next() >= 0) seen += 1;
  if (seen !== rows) throw new Error(`${seen} rows were gone through, not ${rows}`);
}

/** The largest difference of a node's voltage between the two engines, over all rows; throws if an LED differs. */
function worst(plan: Plan): string {
  const [ours, judge] = [walkable(plan, false)(), walkable(plan, true)()];
  const { n } = ours.circuit.network;
  const [a, b] = [new Float64Array(n + 1), new Float64Array(n + 1)];
  let most = 0;
  for (let row = ours.next(); row >= 0; row = ours.next()) {
    judge.next();
    ours.voltages(a);
    judge.voltages(b);
    for (let i = 0; i < n; i++) most = Math.max(most, Math.abs((a[i] as number) - (b[i] as number)));
    if (ours.brightnesses.some((lit, led) => lit !== judge.brightnesses[led])) throw new Error(`an LED differs in row ${row}`);
  }
  return most.toExponential(1);
}

/** The least: each address's byte looked up in each memory, and its LEDs' currents summed. */
export function floorOf(memories: number, addresses: number): () => void {
  const images = Array.from({ length: memories }, (_, m) => Uint8Array.from({ length: addresses }, (_, a) => contents(a) + m));
  const amps = Float64Array.from({ length: 8 }, (_, bit) => 1e-3 * (bit + 1));
  let sink = 0;
  return () => {
    for (let a = 0; a < addresses; a++)
      for (let m = 0; m < memories; m++) {
        const byte = (images[m] as Uint8Array)[a] as number;
        for (let bit = 0; bit < 8; bit++) if ((byte >> bit) & 1) sink += amps[bit] as number;
      }
    if (sink < 0) throw new Error('currents do not add up');
  };
}

/** The first walk of a thread that has run nothing yet [ms]. */
export const walkCold = (plan: Plan): number => took(() => through(walkable(plan, false)(), ROWS));

async function cold(plan: Plan): Promise<number> {
  const worker = new Worker(process.argv[1] as string, { workerData: { cold: plan } });
  return new Promise((resolve, reject) => worker.once('message', resolve).once('error', reject));
}

/** Of one bench: the row engine and the event engine, on a fresh bench with the program warm, and again on the same bench. */
async function walks(memories: number): Promise<string[]> {
  const plan = manyMemories(memories, contents);
  const fresh = (events: boolean) =>
    middle(
      // the first ones warm the program up
      Array.from({ length: events ? 4 : 13 }, () => {
        const walk = walkable(plan, events);
        return took(() => through(walk(), ROWS));
      }).slice(events ? 1 : 8),
    );
  const [first, firstByEvents] = [fresh(false), fresh(true)];
  const [ours, judge] = [walkable(plan, false)(), walkable(plan, true)()];
  const repeat = (walk: RowWalker) => () => {
    walk.again();
    through(walk, ROWS);
  };
  const [again, events, floor] = inTurns(
    [
      { work: repeat(ours), times: 20 },
      { work: repeat(judge), times: 1 },
      { work: floorOf(memories, ROWS), times: 5 },
    ] as const,
    3,
  );
  const [off, alone] = [worst(plan), await cold(plan)];
  keep(`2 048 rows, fresh bench, ${many(memories)}`, first, 'ms', `${off} V`);
  keep(`2 048 rows again, ${many(memories)}`, again, 'ms', `${off} V`);
  keep(`2 048 rows again, ${many(memories)}, by events`, events);
  keep(`2 048 rows, cold, ${many(memories)}`, alone);
  return [
    many(memories),
    ...[alone, first, firstByEvents, again, events].map(ms),
    times(events / again),
    off,
    ms(floor),
    times(again / floor),
  ];
}

/** Once each: the table is sixteen times as long. */
function wide(): string[] {
  const plan = wideMemory(contents);
  const [ours, judge] = [walkable(plan, false), walkable(plan, true)];
  const first = took(() => through(ours(), WIDE_ROWS));
  const events = took(() => through(judge(), WIDE_ROWS));
  keep('32 768 rows, fresh bench', first);
  keep('32 768 rows, fresh bench, by events', events);
  const floor = median(floorOf(1, WIDE_ROWS), 3);
  return [
    'one EEPROM 32K × 8',
    'not run',
    ms(first),
    ms(events),
    'not run',
    '',
    times(events / first),
    '',
    ms(floor),
    times(first / floor),
  ];
}

export async function benchSweeps(): Promise<void> {
  const head = ['', 'cold thread ms', 'fresh bench', 'by events', 'again', 'by events', 'ratio', 'differ by V', 'floor', 'over floor'];
  printTable('2 048 rows, 32 768 rows, the LEDs of each looked at', [head, await walks(1), await walks(8), wide()]);
  const all = median(() => void value(sweep(manyMemories(1, contents))), 3, 1);
  keep('`sweep` of 2 048 rows', all);
  console.log(`  2 048 addresses through \`sweep\`, with all readings of every row: ${ms(all)} ms`);
}
