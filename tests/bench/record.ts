/** Ten minutes of a bench, recorded: what the record and the parked benches keep in memory, and how soon any past moment is shown. */
import { BenchRecord, RecordedBench } from '../../sim-core/index.ts';
import { makeRandom } from '../../sim-core/units/random.ts';
import { contents, manyMemories } from './benches.ts';
import { memories as many, middle, ms, printTable, share, took, value } from './measure.ts';
import { bytesUsed } from './memory-used.ts';
import { keep } from './report.ts';

const MINUTES = 10;
const ACTS_A_MINUTE = 20;
const NETS = 40;
const POLES = 11;
const SCRUBS = 60;

function tenMinutes(memories: number): { readonly bench: RecordedBench; readonly record: BenchRecord } {
  const plan = manyMemories(memories, contents);
  const bench = value(RecordedBench.of(plan));
  const holes = [...new Map(plan.wires.map((w) => [bench.live.circuit.interconnect.atPoint(w.to)?.net.index, w.to])).values()].slice(
    0,
    NETS,
  );
  const record = value(BenchRecord.of(holes, bench.live.circuit));
  bench.live.tell(record);
  for (let i = 0; i < MINUTES * ACTS_A_MINUTE; i++) {
    value(bench.act({ do: 'set', part: 'S1', pole: i % POLES, closed: Math.floor(i / POLES) % 2 === 0 }));
    bench.wait(60 / ACTS_A_MINUTE);
  }
  return { bench, record };
}

export function benchRecord(): void {
  const rows = [['', 'nets', 'record MB', 'all with parked benches MB', 'turns', 'a past moment ms', '95 %', 'the worst']];
  tenMinutes(1);
  for (const memories of [1, 8]) {
    const before = bytesUsed();
    const { bench, record } = tenMinutes(memories);
    bench.park();
    const megabytes = (bytesUsed() - before) / 1e6;
    const random = makeRandom(1);
    const spent: number[] = [];
    for (let k = 0; k < SCRUBS; k++) {
      spent.push(took(() => bench.at(random() * bench.live.now).readings()));
      if (k % 8 === 7) bench.park();
    }
    const nets = new Set(record.all.map(({ signal }) => signal.name)).size;
    keep(`ten minutes recorded, ${many(memories)}`, megabytes, 'MB');
    keep(`a past moment, ${many(memories)}`, middle(spent));
    rows.push([
      many(memories),
      `${nets}`,
      (record.size / 1e6).toFixed(1),
      megabytes.toFixed(1),
      `${bench.turns}`,
      ms(middle(spent)),
      ms(share(spent, 0.95)),
      ms(Math.max(...spent)),
    ]);
  }
  printTable(`${MINUTES} minutes at ${ACTS_A_MINUTE} acts a minute`, rows);
}
