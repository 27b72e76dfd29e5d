/** A memory ready to be written, on whose bench the supply is switched on and off while somebody holds, presses and lets go of the button that writes. */
import { type PartKind, partKind, readParams, type Simulation, type WriteReport } from '../../sim-core/index.ts';
import { makeRandom } from '../../sim-core/units/random.ts';
import { start } from './bench.ts';

/** 00 everywhere, so that any bit of what stands on the data pins, 5A, would show. Pin 1 at d12, all inputs led to rails, /WE on a write network. */
function memoryToWrite(id: string, farads: string): string {
  const kind = partKind(id) as PartKind;
  const params = readParams(kind, { id: 'U1', kind: id });
  if (!params.ok) throw new Error(params.failure.says);
  const pins = kind.pins(params.value);
  const half = pins.length / 2;
  const lines = pins.flatMap(({ name, role }, i) => {
    const [hole, rail] = i < half ? [`a${12 + i}`, 'a'] : [`j${11 + pins.length - i}`, 'j'];
    const high = name === 'VCC' || name === '/OE' || ['D1', 'D3', 'D4', 'D6'].includes(name);
    return role === 'none' || name === '/WE' ? [] : [`wire L${i} from ${hole} to ${high ? '+' : '-'}${rail}${i + 1}`];
  });
  const strobe = pins.findIndex((p) => p.name === '/WE');
  const row = 11 + pins.length - strobe;
  return `
    board-63 B1
    bench-supply PS1
    wire P1 red from PS1.+ to +j30
    wire P2 black from PS1.- to -j30
    wire P3 red from +j31 to +a31
    wire P4 black from -j31 to -a31
    ${id} U1 at d12
    memory U1 000 00000000000000000000000000000000
    ${lines.join('\n')}
    capacitor C1 ${farads} from +j33 to -j33
    resistor R1 680 from j${row} to +j34
    push-button SB1 at e50
    wire L90 yellow from i${row} to j50
    capacitor C2 1n from j52 to -j35
    resistor R2 10k from i52 to -j36`;
}

const contentsOf = (sim: Simulation) => JSON.stringify(sim.plan().memories.U1);

export interface Powered {
  readonly writes: readonly WriteReport[];
  /** by sequence: does the memory hold what it held before? */
  readonly kept: readonly boolean[];
}

/**
 * So many times on and off. The button is held or not while the supply comes up; in half of the sequences it is moved once more between 0.1 and 3 ms
 * after that, as two hands at once may do; and stays so while the supply goes: moving it later would write, as it should. Its contacts do not bounce: a
 * bounce may last longer than the 5 ms of the lock-out after power-up, and its last pulse would write, as it should too. Between on and off pass 20 to 500 ms.
 */
export function powerUpsAndDowns(id: string, times: number, seed: number, farads = '100n'): Powered {
  const random = makeRandom(seed);
  const sim = start(memoryToWrite(id, farads), { seed, bounce: false });
  let held = false;
  const button = (to: boolean) => {
    if (to !== held) sim.begin({ do: to ? 'press' : 'release', part: 'SB1' });
    held = to;
  };
  const supply = (on: boolean) => sim.begin({ do: 'set', part: 'PS1', pole: 0, closed: on });
  const kept: boolean[] = [];
  for (let k = 0; k < times; k++) {
    const before = contentsOf(sim);
    button(random() < 0.5);
    sim.wait(0.05 + 0.4 * random());
    supply(true);
    if (random() < 0.5) {
      sim.wait(1e-4 + 2.9e-3 * random());
      button(!held);
    }
    sim.wait(0.02 + 0.48 * random());
    supply(false);
    sim.wait(0.1);
    kept.push(contentsOf(sim) === before);
  }
  return { writes: sim.events, kept };
}
