/** With contact bounce, access times and everything: the time from an act to rest and to the readings; and what a running bench keeps in memory. */
import { running, still } from './benches.ts';
import { memories as many, middle, ms, printTable, share, value, WARM } from './measure.ts';
import { bytesUsed } from './memory-used.ts';
import { keep } from './report.ts';

const POLES = 11;
const FLIPS = 1000;

/** Flips each pole in turn, all closed and then all open; returns what each took to rest and what its readings took [ms]. */
function flips(memories: number): { readonly rest: number[]; readonly read: number[]; readonly worst: number } {
  const sim = running(memories, false);
  const rest: number[] = [];
  const read: number[] = [];
  let warm = 0;
  const begun = performance.now();
  for (let i = 0; rest.length < warm + FLIPS; i++) {
    const t = performance.now();
    value(sim.act({ do: 'set', part: 'S1', pole: i % POLES, closed: Math.floor(i / POLES) % 2 === 0 }));
    const rested = performance.now();
    sim.readings();
    rest.push(rested - t);
    read.push(performance.now() - rested);
    if (t - begun < WARM) warm = rest.length;
  }
  // a bench that was found with its switches so
  const found = still(sim.plan());
  const { nets } = sim.readings();
  if (nets.length !== found.readings().nets.length) throw new Error('the two benches have other nets');
  const worst = Math.max(...found.readings().nets.map((net, k) => Math.abs(net.volts - (nets[k]?.volts ?? Number.NaN))));
  return { rest: rest.slice(warm), read: read.slice(warm), worst };
}

export function benchLive(): void {
  const rows = [['a switch flip with its bounce', 'to rest ms', '95 %', 'readings ms', '95 %', 'differs from a bench found so, V']];
  for (const memories of [1, 8]) {
    const { rest, read, worst } = flips(memories);
    const off = worst.toExponential(1);
    keep(`flip to rest, ${many(memories)}`, middle(rest), 'ms', `${off} V`);
    keep(`readings after a flip, ${many(memories)}`, middle(read));
    rows.push([many(memories), ms(middle(rest)), ms(share(rest, 0.95)), ms(middle(read)), ms(share(read, 0.95)), off]);
  }
  printTable('Live', rows);
}

export function benchMemoryUsed(): void {
  const used = () => bytesUsed() / 2 ** 20;
  const rows = [['kept by a running bench, after 64 flips', 'MB']];
  // what the program makes once is there before anything is compared
  running(1);
  for (const memories of [1, 8, 64]) {
    const before = used();
    const sim = running(memories);
    for (let i = 0; i < 64; i++) value(sim.act({ do: 'set', part: 'S1', pole: i % POLES, closed: Math.floor(i / POLES) % 2 === 0 }));
    const kept = used() - before;
    keep(`memory kept, ${many(memories)}`, kept, 'MB');
    rows.push([many(memories), kept.toFixed(1)]);
    // still in use here, so that what it keeps is counted
    if (!sim.rest()) throw new Error('the bench does not rest');
  }
  printTable('Memory used', rows);
}
