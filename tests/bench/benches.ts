/** Benches of any size for measuring: so many memories on one address bus, eleven switches with pull-downs, eight LEDs each. */
import type { Plan, PlanPart, PlanWire } from '../../shared/plan.ts';
import { type Simulation, simulate } from '../../sim-core/index.ts';
import { hexByte } from '../../sim-core/units/hex.ts';

/** Board rows of the address pins A0 … A10 of a memory at d40, and the side of the trench they are on. */
const ADDRESS_ROWS: readonly (readonly [row: number, upper: boolean])[] = [
  ...[47, 46, 45, 44, 43, 42, 41, 40].map((row) => [row, false] as const),
  [41, true],
  [42, true],
  [45, true],
];
const DATA_ROWS: readonly (readonly [row: number, upper: boolean])[] = [
  [48, false],
  [49, false],
  [50, false],
  [51, true],
  [50, true],
  [49, true],
  [48, true],
  [47, true],
];

/** contents: byte at each address; the same in every memory, turned by its number so that no two boards show the same. */
export function manyMemories(memories: number, contents: (address: number) => number): Plan {
  const parts: PlanPart[] = [{ id: 'PS1', kind: 'bench-supply', spot: [-12, 0], params: { amps: 10, ohms: 0.01 } }];
  const wires: PlanWire[] = [];
  const join = (from: string, to: string) => wires.push({ id: `W${wires.length + 1}`, from, to, colour: 'green' });
  const images: Plan['memories'] = {};

  for (let m = 0; m < memories; m++) {
    const on = (point: string) => `B${m + 1}:${point}`;
    const part = (id: string, kind: string, at: string, more: Partial<PlanPart> = {}) => parts.push({ id, kind, at: on(at), ...more });
    join('PS1.+', on('+j1'));
    join('PS1.-', on('-j1'));
    join(on('-j2'), on('-a1'));
    part(`U${m + 1}`, 'eeprom-2kx8', 'd40');
    join(on('-a40'), on('a51'));
    join(on('+j40'), on('j40'));
    join(on('+j41'), on('j43'));
    join(on('-j41'), on('j44'));
    join(on('-j42'), on('j46'));
    part(`C${m + 1}`, 'capacitor', 'i40', { to: on('-j43'), params: { farads: 100e-9 } });
    DATA_ROWS.forEach(([row, upper], bit) => {
      const led = 12 + 2 * bit;
      join(on(`${upper ? 'j' : 'a'}${row}`), on(`a${led}`));
      part(`D${m + 1}_${bit}`, 'led', `c${led}`, {
        to: on(`c${led + 1}`),
        params: { colour: (['red', 'amber', 'green', 'blue'] as const)[bit % 4] ?? 'red' },
      });
      part(`R${m + 1}_${bit}`, 'resistor', `b${led + 1}`, { to: on(`-a${12 + bit}`), params: { ohms: 330 } });
    });
    ADDRESS_ROWS.forEach(([row, upper], bit) => {
      if (m === 0) {
        join(on(`+j${bit + 2}`), on(`j${bit + 1}`));
        part(`RP${bit}`, 'resistor', `b${bit + 1}`, { to: on(`-a${bit + 21}`), params: { ohms: memories === 1 ? 10_000 : 1000 } });
        join(on(`a${bit + 1}`), on(`${upper ? 'j' : 'a'}${row}`));
      } else join(`B${m}:${upper ? 'i' : 'b'}${row}`, on(`${upper ? 'j' : 'a'}${row}`));
    });
    const bytes = Array.from({ length: 2048 }, (_, a) => (contents(a) + m) & 0xff);
    images[`U${m + 1}`] = { '0': bytes.slice(0, 1024).map(hexByte).join(''), '400': bytes.slice(1024).map(hexByte).join('') };
  }
  parts.push({ id: 'S1', kind: 'dip-switch', at: 'B1:e1', params: { poles: 11 } });
  return {
    format: 'lampwright-plan',
    version: 2,
    title: `${memories} memories on one bus`,
    boards: Array.from({ length: memories }, (_, m) => ({ id: `B${m + 1}`, kind: 'board-63', spot: [0, 21 * m], splitRails: false })),
    parts,
    wires,
    memories: images,
    meters: [],
    notes: [],
    switches: { PS1: [true] },
  };
}

/** What is stored for measuring: bytes that differ from address to address. */
export const contents = (a: number): number => (a * 37 + (a >> 3)) & 255;

function run(plan: Plan, isStill: boolean): Simulation {
  const built = simulate(plan, { still: isStill });
  if (!built.ok) throw new Error(built.failure.says);
  return built.value;
}
export const still = (plan: Plan): Simulation => run(plan, true);
export const running = (memories: number, isStill = true): Simulation => run(manyMemories(memories, contents), isStill);

/** Rows of a filling board that carry a resistor, and those that only carry wires. */
const [FIRST_FILLED, LAST_FILLED, LAST_ROW] = [3, 38, 63];

/** A crowded bench: eight memories on one bus, and boards of resistors and wires beside them, until there are this many of each. */
export function crowdedBench(parts = 300, wires = 600): Plan {
  const bus = manyMemories(8, contents);
  const more: { parts: PlanPart[]; wires: PlanWire[]; boards: Plan['boards'][number][] } = { parts: [], wires: [], boards: [] };
  for (let b = 9; bus.parts.length + more.parts.length < parts || bus.wires.length + more.wires.length < wires; b++) {
    more.boards.push({ id: `B${b}`, kind: 'board-63', spot: [72, 21 * (b - 9)], splitRails: false });
    const join = (from: string, to: string, colour: string) => {
      const id = `F${bus.wires.length + more.wires.length}`;
      if (bus.wires.length + more.wires.length < wires) more.wires.push({ id, from: `B${b}:${from}`, to: `B${b}:${to}`, colour });
    };
    more.wires.push({ id: `F${bus.wires.length + more.wires.length}`, from: `B${b - 8}:+j50`, to: `B${b}:+j1`, colour: 'red' });
    more.wires.push({ id: `F${bus.wires.length + more.wires.length}`, from: `B${b - 8}:-a50`, to: `B${b}:-a1`, colour: 'black' });
    for (let row = FIRST_FILLED; row <= LAST_FILLED; row++) {
      if (bus.parts.length + more.parts.length < parts)
        more.parts.push({
          id: `RF${more.parts.length + 1}`,
          kind: 'resistor',
          at: `B${b}:d${row}`,
          to: `B${b}:g${row}`,
          params: { ohms: 1e5 },
        });
      join(`+j${row}`, `j${row}`, 'yellow');
      join(`-a${row}`, `a${row}`, 'blue');
    }
    for (let row = LAST_FILLED + 1; row < LAST_ROW; row++) join(`b${row}`, `c${row + 1}`, 'green');
  }
  return {
    ...bus,
    title: `${parts} parts and ${wires} wires`,
    boards: [...bus.boards, ...more.boards],
    parts: [...bus.parts, ...more.parts],
    wires: [...bus.wires, ...more.wires],
  };
}
