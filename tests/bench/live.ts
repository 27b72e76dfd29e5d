/** With chatter, access times and everything: the time from a hand to the readings; and what a running bench keeps in memory. */
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { running } from './benches.ts';
import { memories as many, middle, ms, printTable, share } from './measure.ts';

export function benchLive(): void {
  const rows = [['a switch flip with its chatter, to rest and readings', 'median ms', '95 % ms']];
  for (const memories of [1, 8]) {
    const sim = running(memories, false);
    const times = Array.from({ length: 120 }, (_, i) => {
      const t = performance.now();
      sim.act({ do: 'set', part: 'S1', pole: i % 11, closed: Math.floor(i / 11) % 2 === 0 });
      sim.readings();
      return performance.now() - t;
    }).slice(20);
    rows.push([many(memories), ms(middle(times)), ms(share(times, 0.95))]);
  }
  printTable('Live', rows);
}

export function benchMemoryUsed(): void {
  setFlagsFromString('--expose-gc');
  const collect: unknown = runInNewContext('gc');
  const used = () => {
    if (typeof collect === 'function') collect();
    const { heapUsed, arrayBuffers } = process.memoryUsage();
    return (heapUsed + arrayBuffers) / 2 ** 20;
  };
  const rows = [['kept by a running bench, after a sweep of 64 moves', 'MB']];
  for (const memories of [1, 8, 64]) {
    const before = used();
    const sim = running(memories);
    for (let i = 0; i < 64; i++) sim.act({ do: 'set', part: 'S1', pole: i % 11, closed: Math.floor(i / 11) % 2 === 0 });
    rows.push([many(memories), (used() - before).toFixed(1)]);
    // still in use here, so that what it keeps is counted
    if (!sim.rest()) throw new Error('the bench does not rest');
  }
  printTable('Memory used', rows);
}
