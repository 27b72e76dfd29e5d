/** Any bench of chips that hear each other, each pin joined by chance to a rail, a part or another chip's pin; now and then with a clock or two supplies. */
import fc from 'fast-check';
import type { Plan, PlanPart, PlanWire } from '../../shared/plan.ts';
import { partKind, readParams } from '../../sim-core/index.ts';
import { makeRandom } from '../../sim-core/units/random.ts';
import { planWith } from './plans.ts';

const CHIPS = [
  'eeprom-2kx8',
  'static-ram-2kx8',
  'octal-register',
  'octal-buffer',
  'schmitt-inverter',
  'schmitt-inverter',
  'hex-inverter',
  'quad-nand',
  'quad-nor',
  'quad-xor',
  'counter-4-bit',
  'decoder-3-to-8',
  'timer',
] as const;
const FAMILIES = ['HC', 'HCT', 'LS'] as const;
const OHMS = [100, 330, 1000, 4700, 10_000, 100_000] as const;
const FARADS = [1e-9, 10e-9, 100e-9] as const;
const HERTZ = [2, 1000, 1e6, 5e6] as const;
/** Each chip has a board of its own, with its first pin in this row. */
const FIRST_ROW = 8;
const MOST_PARTS = 200;

/** chips: so many at most. */
export const randomMachine = (chips: number): fc.Arbitrary<Plan> =>
  fc.tuple(fc.integer({ min: 1, max: chips }), fc.nat()).map(([count, seed]) => build(count, makeRandom(seed)));

interface Pin {
  readonly board: number;
  readonly role: string;
  /** free holes of its row */
  readonly holes: string[];
}

function build(count: number, random: () => number): Plan {
  const pick = <T>(of: readonly T[]): T => of[Math.floor(random() * of.length)] as T;
  const parts: PlanPart[] = [];
  const wires: PlanWire[] = [];
  const switches: Record<string, boolean[]> = { PS1: [true] };
  const pins: Pin[] = [];
  const used = new Map<string, number>();
  const rail = (board: number, name: '+j' | '-j' | '+a' | '-a'): string | undefined => {
    const n = (used.get(`${board}${name}`) ?? 0) + 1;
    used.set(`${board}${name}`, n);
    return n > 50 ? undefined : `B${board}:${name}${n}`;
  };
  const wire = (from: string | undefined, to: string | undefined) => {
    if (from && to) wires.push({ id: `W${wires.length}`, from, to, colour: 'green' });
  };
  const two = (kind: string, from: string | undefined, to: string | undefined, params?: PlanPart['params']) => {
    if (from && to && parts.length < MOST_PARTS) parts.push({ id: `P${parts.length}`, kind, at: from, to, ...(params ? { params } : {}) });
  };
  parts.push({ id: 'PS1', kind: 'bench-supply', spot: [0, -20], params: { amps: pick([0.05, 0.5, 3]) } });
  const second = random() < 0.3;
  if (second) {
    parts.push({ id: 'PS2', kind: 'bench-supply', spot: [20, -20], params: { volts: pick([3.3, 5, 9]) } });
    switches.PS2 = [random() < 0.8];
    if (random() < 0.8) wire('PS2.-', 'PS1.-');
  }
  for (let board = 1; board <= count; board++) {
    const feed = second && random() < 0.3 ? 'PS2' : 'PS1';
    // the first board is fed, the others from it, or from the other supply
    if (board === 1 || feed === 'PS2') {
      wire(`${feed}.+`, rail(board, '+j'));
      wire(`${feed}.-`, rail(board, '-j'));
    } else {
      wire(rail(1, '+j'), rail(board, '+j'));
      wire(rail(1, '-j'), rail(board, '-j'));
    }
    wire(rail(board, '+j'), rail(board, '+a'));
    wire(rail(board, '-j'), rail(board, '-a'));
    pins.push(...placeChip(board, pick(CHIPS), pick(FAMILIES)));
  }
  function placeChip(board: number, id: string, family: string): Pin[] {
    const kind = partKind(id);
    if (!kind) throw new Error(`no part ${id}`);
    const params: Record<string, string> = kind.params.some((p) => p.name === 'family') ? { family } : {};
    const read = readParams(kind, { id: 'U1', kind: id, params });
    if (!read.ok) throw new Error(read.failure.says);
    const shape = kind.footprint(read.value);
    const wide = shape.shape === 'rows' && shape.span > 3;
    parts.push({ id: `U${board}`, kind: id, at: `B${board}:${wide ? 'd' : 'e'}${FIRST_ROW}`, params });
    const all = kind.pins(read.value);
    const half = all.length / 2;
    return all.map(({ role }, i) => {
      const row = i < half ? FIRST_ROW + i : FIRST_ROW + all.length - 1 - i;
      return { board, role, holes: [...(i < half ? 'abc' : 'jih')].slice(0, wide ? 2 : 3).map((c) => `B${board}:${c}${row}`) };
    });
  }
  const railOf = (pin: Pin, plus: boolean) => rail(pin.board, plus ? pick(['+j', '+a']) : pick(['-j', '-a']));
  const inputs = pins.filter((p) => p.role === 'input' || p.role === 'both');
  const outputs = pins.filter((p) => p.role === 'output' || p.role === 'both');
  for (const pin of pins) {
    if (pin.role === 'supply' && random() < 0.97) wire(pin.holes.pop(), railOf(pin, true));
    if (pin.role === 'ground' && random() < 0.97) wire(pin.holes.pop(), railOf(pin, false));
    if (pin.role === 'ground') two('capacitor', rail(pin.board, '+j'), rail(pin.board, '-j'), { farads: 100e-9 });
  }
  for (const pin of inputs) {
    const how = random();
    if (how < 0.4) wire(pin.holes.pop(), railOf(pin, random() < 0.4));
    else if (how < 0.55) two('resistor', pin.holes.pop(), railOf(pin, random() < 0.5), { ohms: pick(OHMS) });
    else if (how < 0.8) wire(pin.holes.pop(), pick(outputs.length > 0 ? outputs : inputs).holes.pop());
    else if (how < 0.9) {
      two('resistor', pin.holes.pop(), pick(outputs.length > 0 ? outputs : inputs).holes.pop(), { ohms: pick(OHMS) });
      two('capacitor', pin.holes.pop(), railOf(pin, false), { farads: pick(FARADS) });
    }
  }
  for (const pin of outputs) {
    const how = random();
    if (how < 0.2) two('led', pin.holes.pop(), railOf(pin, false), { colour: 'red' });
    else if (how < 0.4) two('resistor', pin.holes.pop(), railOf(pin, random() < 0.5), { ohms: pick(OHMS) });
    else if (how < 0.43) wire(pin.holes.pop(), railOf(pin, random() < 0.5));
  }
  if (random() < 0.4) {
    parts.push({ id: 'CK1', kind: 'clock-generator', spot: [40, -20], params: { hertz: pick(HERTZ) } });
    wire('CK1.+', rail(1, '+j'));
    wire('CK1.-', rail(1, '-j'));
    wire('CK1.out', pick(inputs.length > 0 ? inputs : pins).holes.pop());
  }
  return planWith({
    title: 'chips joined by chance',
    boards: Array.from({ length: count }, (_, b) => ({ id: `B${b + 1}`, kind: 'board-63', spot: [0, 21 * b], splitRails: false })),
    parts,
    wires,
    switches,
  });
}
