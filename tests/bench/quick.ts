import { writeFileSync } from 'node:fs';
import { simulate } from '../../sim-core/index.ts';
import { manyMemories } from './benches.ts';

for (const m of (process.env.M ?? '1,8').split(',').map(Number)) {
  const plan = manyMemories(m, (a) => (a * 37 + (a >> 3)) & 255);
  const t0 = performance.now();
  const s = simulate(plan, { still: true });
  if (!s.ok) {
    console.log(s.failure);
    continue;
  }
  const sim = s.value;
  console.log('build', performance.now() - t0, 'n', sim.circuit.network.n, 'nnz', sim.circuit.network.pattern.row.length);
  for (let rep = 0; rep < 3; rep++) {
    const t = performance.now();
    for (let a = 0; a < 2048; a++) {
      const g = a ^ (a >> 1),
        p = (a - 1) ^ ((a - 1) >> 1);
      const ch = a === 0 ? 0 : Math.log2(g ^ p);
      sim.act({ do: 'set', part: 'S1', pole: ch, closed: ((g >> ch) & 1) === 1 });
    }
    console.log(m, 'sweep', (performance.now() - t).toFixed(1), 'ms');
  }
  const t1 = performance.now();
  for (let i = 0; i < 100; i++) sim.readings();
  console.log('readings', (performance.now() - t1) / 100);
  if (process.env.STILL) continue;
  const l = simulate(plan, {});
  if (!l.ok) continue;
  const live = l.value;
  const bt: number[] = [];
  for (let i = 0; i < 60; i++) {
    const t = performance.now();
    const n0 = live.now;
    live.act({ do: 'set', part: 'S1', pole: i % 11, closed: (i >> 2) % 2 === 0 });
    bt.push(performance.now() - t);
  }
  bt.sort((a, b) => a - b);
  console.log('flip live ms median', bt[30], 'max', bt[59]);
}
