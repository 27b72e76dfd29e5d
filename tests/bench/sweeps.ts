/** Sweeps over every address: the first time, again from what the bench remembers, and against the least that any such sweep can cost. */
import { type Simulation, sweep } from '../../sim-core/index.ts';
import { contents, manyMemories, running, still } from './benches.ts';
import { denseNewton } from './dense-newton.ts';
import { inTurns, memories as many, median, middle, ms, printTable, times } from './measure.ts';
import { wideMemory } from './wide-memory.ts';

/** Every address in Gray order: one switch an address, as a hand would go. poles: the switch and pole of each address bit. */
function everyAddress(sim: Simulation, poles: readonly { readonly part: string; readonly pole: number }[]): void {
  const last = 1 << poles.length;
  for (let a = 0; a < last; a++) {
    const gray = a ^ (a >> 1);
    const before = a === 0 ? last >> 1 : (a - 1) ^ ((a - 1) >> 1);
    const bit = 31 - Math.clz32(gray ^ before);
    const at = poles[bit];
    if (at) sim.act({ do: 'set', ...at, closed: ((gray >> bit) & 1) === 1 });
  }
}

const ELEVEN = Array.from({ length: 11 }, (_, pole) => ({ part: 'S1', pole }));
const FIFTEEN = Array.from({ length: 15 }, (_, bit) => (bit < 12 ? { part: 'S1', pole: bit } : { part: 'S2', pole: bit - 12 }));

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

export function benchSweeps(): void {
  const rows = [['every point solved, its chips heard', 'first ms', 'again ms', 'floor ms', 'again / floor', 'dense ms', 'ratio']];
  for (const memories of [1, 8]) {
    const first = middle(
      Array.from({ length: 3 }, () => {
        const fresh = running(memories);
        const t = performance.now();
        everyAddress(fresh, ELEVEN);
        return performance.now() - t;
      }),
    );
    const sim = running(memories);
    const { network } = sim.circuit;
    const x = new Float64Array(network.n + 1);
    const [again = Number.NaN, floor = Number.NaN, point = Number.NaN] = inTurns(
      [
        { work: () => everyAddress(sim, ELEVEN), times: 1 },
        { work: floorOf(memories, 2048), times: 20 },
        { work: () => void denseNewton(network, x.fill(0)), times: memories === 1 ? 8 : 1 },
      ],
      5,
    );
    // an address is two points, the address's own and the outputs' answer to it; a few dense ones are timed and scaled
    const dense = point * 2 * 2048;
    rows.push([
      `2 048 addresses, ${many(memories)}`,
      ms(first),
      ms(again),
      ms(floor),
      times(again / floor),
      `${ms(dense)} (scaled)`,
      times(dense / again),
    ]);
  }
  const wide = still(wideMemory(contents));
  const t = performance.now();
  everyAddress(wide, FIFTEEN);
  const first = performance.now() - t;
  const [again = Number.NaN, floor = Number.NaN] = inTurns(
    [
      { work: () => everyAddress(wide, FIFTEEN), times: 1 },
      { work: floorOf(1, 32768), times: 3 },
    ],
    3,
  );
  rows.push(['32 768 addresses, one EEPROM 32K × 8', ms(first), ms(again), ms(floor), times(again / floor), 'not run', '']);
  printTable('Sweeps', rows);
  const plan = manyMemories(1, contents);
  console.log(`  2 048 addresses through \`sweep\`, with all readings of every row: ${ms(median(() => void sweep(plan), 3, 1))} ms`);
}
