/** Any chip on a bench of its own: generated from its footprint, each input on a switch to plus and a resistor to minus, looked at pin by pin. */
import { type PartKind, partKind, readParams, type Simulation } from '../../sim-core/index.ts';
import { start } from './bench.ts';

export type Seen = 'L' | 'H' | 'X' | 'Z';

export interface LogicBench {
  readonly sim: Simulation;
  /** by pin name: 1 closes the pin's switch to plus, 0 leaves it to its resistor; then 1 µs passes */
  set(levels: Readonly<Record<string, 0 | 1>>): void;
  see(name: string): Seen;
  /** the levels of these pins, as letters */
  look(names: readonly string[]): string;
  /** against the chip's ground pin [V] */
  volts(name: string): number;
}

export interface BenchOptions {
  /** further lines in the text notation; pins' holes as `hole` gives them */
  readonly more?: (hole: (name: string) => string) => string;
  /** inputs that get no switch */
  readonly open?: readonly string[];
  /** inputs that are high from the beginning */
  readonly high?: readonly string[];
  readonly still?: boolean;
  /** of the chip: 'HC' */
  readonly family?: string;
  readonly pullDown?: string;
  readonly volts?: number;
  readonly drive?: 'typical' | 'guaranteed';
}

/** Pin 1 at e10 of B1; switches on B2. Rails +j and −j of both boards carry the supply, and −a of B2. */
export function logicBench(
  id: string,
  { more = () => '', open = [], high = [], still = true, family = '', pullDown = '470', volts = 5, drive = 'typical' }: BenchOptions = {},
): LogicBench {
  const kind = partKind(id) as PartKind;
  const read = readParams(kind, { id: 'U1', kind: id });
  if (!read.ok) throw new Error(read.failure.says);
  const pins = kind.pins(read.value);
  const half = pins.length / 2;
  const hole = (name: string, column = 0): string => {
    const i = pins.findIndex((p) => p.name === name);
    if (i < 0) throw new Error(`${id} has no pin ${name}`);
    return i < half ? `${'abc'[column]}${10 + i}` : `${'jih'[column]}${10 + pins.length - 1 - i}`;
  };
  const switched = pins.filter((p) => (p.role === 'input' || p.role === 'both') && !open.includes(p.name));
  const banks = Math.ceil(switched.length / 12);
  const lines = switched.flatMap(({ name }, k) => {
    const row = 5 + k;
    return [
      `wire L${k} green from ${hole(name)} to B2:a${row}`,
      `wire M${k} red from B2:j${row} to B2:+j${2 + k}`,
      `resistor R${k} ${pullDown} from B2:b${row} to B2:-a${2 + k}`,
    ];
  });
  const supply = pins.find((p) => p.role === 'supply');
  const ground = pins.find((p) => p.role === 'ground');
  const sim = start(
    `
    board-63 B1
    board-63 B2
    bench-supply PS1 ${volts} with ohms 1m, amps 5
    switch PS1 set 1
    wire W1 red from PS1.+ to +j1
    wire W2 black from PS1.- to -j1
    wire W3 red from +j2 to B2:+j1
    wire W4 black from -j2 to B2:-a1
    ${id} U1 ${family} at e10
    ${supply ? `wire W5 red from ${hole(supply.name)} to +j3` : ''}
    ${ground ? `wire W6 black from ${hole(ground.name)} to -j3` : ''}
    ${Array.from({ length: banks }, (_, b) => `dip-switch S${b} at B2:e${5 + 12 * b} with poles ${Math.min(12, switched.length - 12 * b)}`).join('\n')}
    ${Array.from(
      { length: banks },
      (_, b) =>
        `switch S${b} set ${switched
          .slice(12 * b, 12 * b + 12)
          .map((p) => (high.includes(p.name) ? 1 : 0))
          .join('')}`,
    ).join('\n')}
    ${lines.join('\n')}
    ${more((name) => hole(name, 1))}`,
    { still, bounce: false, drive },
  );
  const pin = (name: string) => {
    const found = sim.readings().chips.find((c) => c.part === 'U1')?.pins[pins.findIndex((p) => p.name === name)];
    if (!found) throw new Error(`no reading of ${name}`);
    return found;
  };
  return {
    sim,
    set(levels) {
      for (const [name, level] of Object.entries(levels)) {
        const k = switched.findIndex((p) => p.name === name);
        if (k < 0) throw new Error(`${id} has no switch at ${name}`);
        sim.act({ do: 'set', part: `S${Math.floor(k / 12)}`, pole: k % 12, closed: level === 1 });
      }
      sim.wait(1e-6);
    },
    see: (name) => pin(name).level ?? 'X',
    look: (names) => names.map((n) => pin(n).level ?? 'X').join(''),
    volts: (name) => pin(name).volts,
  };
}
