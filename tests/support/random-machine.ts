/** Any bench of parts that hear each other, each pin joined by chance to a rail, a part or another part's pin; now and then with a clock or two supplies. */
import fc from 'fast-check';
import type { Plan, PlanPart, PlanWire } from '../../shared/plan.ts';
import { legHoles } from '../../sim-core/board/footprints.ts';
import { readHole } from '../../sim-core/board/tie-points.ts';
import { everyRow } from '../../sim-core/document/memory-rows.ts';
import { PARTS, type PartKind, partKind, readParams } from '../../sim-core/index.ts';
import { makeRandom } from '../../sim-core/units/random.ts';
import { planWith } from './plans.ts';

/** What most benches hear each other through, and what swings. */
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
  'timer',
] as const;
const OHMS = [100, 330, 1000, 4700, 10_000, 100_000] as const;
const FARADS = [1e-9, 10e-9, 100e-9] as const;
const HENRIES = [10e-6, 1e-3, 100e-3] as const;
const HERTZ = [2, 1000, 1e6, 5e6] as const;
/** Each part with more than two legs has a board of its own, with its first pin in this row. */
const FIRST_ROW = 8;
const MOST_PARTS = 200;
/** Bytes of a memory that chance writes; the rest is erased. */
const WRITTEN = 128;

function kindOf(id: string): PartKind {
  const kind = partKind(id);
  if (!kind) throw new Error(`no part ${id}`);
  return kind;
}

const shapeOf = (kind: PartKind) => {
  const read = readParams(kind, { id: 'X', kind: kind.id, params: {} });
  if (!read.ok) throw new Error(read.failure.says);
  return kind.footprint(read.value).shape;
};
const withShape = (...shapes: readonly string[]) => PARTS.filter((kind) => shapes.includes(shapeOf(kind)));
/** What takes a board of its own. */
const PACKAGES = withShape('rows', 'corners', 'in-line', 'four-leg').map((kind) => kind.id);
const TWO_LEGS = withShape('two-leg').map((kind) => kind.id);
const SUPPLIES = PARTS.filter((kind) => kind.group === 'supply').map((kind) => kind.id);

/** least, most: boards, each with a part of more than two legs. */
export const randomMachine = (least: number, most: number): fc.Arbitrary<Plan> =>
  fc.tuple(fc.integer({ min: least, max: most }), fc.nat()).map(([count, seed]) => new Machine(count, makeRandom(seed)).plan());

interface Pin {
  readonly board: number;
  readonly role: string;
  /** free holes of its row */
  readonly holes: string[];
}

class Machine {
  private readonly parts: PlanPart[] = [];
  private readonly wires: PlanWire[] = [];
  private readonly switches: Record<string, boolean[]> = { PS1: [true] };
  private readonly memories: Record<string, Record<string, string>> = {};
  private readonly pins: Pin[] = [];
  /** by rail: holes that are taken */
  private readonly used = new Map<string, number>();
  private readonly boards: Plan['boards'];

  constructor(
    count: number,
    private readonly random: () => number,
  ) {
    this.boards = Array.from({ length: count }, (_, b) => ({ id: `B${b + 1}`, kind: 'board-63', spot: [0, 21 * b], splitRails: false }));
    this.feed();
    for (const board of this.boards.keys()) this.place(board + 1, random() < 0.6 ? this.pick(CHIPS) : this.pick(PACKAGES));
    this.join();
    this.clock();
  }

  plan(): Plan {
    const { boards, parts, wires, switches, memories } = this;
    return planWith({ title: 'parts joined by chance', boards, parts, wires, switches, memories });
  }

  private pick<T>(of: readonly T[]): T {
    return of[Math.floor(this.random() * of.length)] as T;
  }

  private chance(share: number): boolean {
    return this.random() < share;
  }

  /** The first board is fed, the others from it, or from a second supply. */
  private feed(): void {
    this.parts.push({ id: 'PS1', kind: 'bench-supply', spot: [0, -20], params: { amps: this.pick([0.05, 0.5, 3]) } });
    const second = this.chance(0.3);
    if (second) {
      const kind = this.pick(SUPPLIES);
      this.parts.push({
        id: 'PS2',
        kind,
        spot: [20, -20],
        ...(kind === 'bench-supply' ? { params: { volts: this.pick([3.3, 5, 9]) } } : {}),
      });
      this.switches.PS2 = [this.chance(0.8)];
      if (this.chance(0.8)) this.wire('PS2.-', 'PS1.-');
    }
    for (const board of this.boards.keys()) {
      const from = second && this.chance(0.3) ? 'PS2' : 'PS1';
      for (const side of ['+', '-'] as const) {
        const feeds = board === 0 || from === 'PS2' ? `${from}.${side}` : this.rail(1, `${side}j`);
        this.wire(feeds, this.rail(board + 1, `${side}j`));
        this.wire(this.rail(board + 1, `${side}j`), this.rail(board + 1, `${side}a`));
      }
    }
  }

  private rail(board: number, name: string): string | undefined {
    const n = (this.used.get(`${board}${name}`) ?? 0) + 1;
    this.used.set(`${board}${name}`, n);
    return n > 50 ? undefined : `B${board}:${name}${n}`;
  }

  private railOf({ board }: Pin, plus: boolean): string | undefined {
    return this.rail(board, `${plus ? '+' : '-'}${this.pick(['j', 'a'])}`);
  }

  private wire(from: string | undefined, to: string | undefined): void {
    if (from && to) this.wires.push({ id: `W${this.wires.length}`, from, to, colour: 'green' });
  }

  private two(kind: string, from: string | undefined, to: string | undefined): void {
    const { parts } = this;
    if (from && to && parts.length < MOST_PARTS) parts.push({ id: `P${parts.length}`, kind, at: from, to, params: this.paramsOf(kind) });
  }

  /** Its figures: of choices any one, of the most common quantities one that benches have. */
  private paramsOf(id: string): NonNullable<PlanPart['params']> {
    const kind = kindOf(id);
    const params: Record<string, string | number> = {};
    for (const spec of kind.params) {
      if (spec.type === 'choice') params[spec.name] = this.pick(spec.choices);
      else if (id === 'resistor' && spec.name === 'ohms') params.ohms = this.pick(OHMS);
      else if (id === 'capacitor' && spec.name === 'farads') params.farads = this.pick(FARADS);
      else if (spec.name === 'henries') params.henries = this.pick(HENRIES);
    }
    // a memory from its sheet may not be made as chance would have it
    return readParams(kind, { id: 'X', kind: id, params }).ok ? params : {};
  }

  private place(board: number, id: string): void {
    const kind = kindOf(id);
    const params = this.paramsOf(id);
    const read = readParams(kind, { id: 'X', kind: id, params });
    if (!read.ok) throw new Error(read.failure.says);
    const shape = kind.footprint(read.value);
    const at = `B${board}:${shape.shape === 'rows' && shape.span > 3 ? 'd' : 'e'}${FIRST_ROW}`;
    const first = readHole(at, this.boards);
    const legs = first.ok && legHoles(shape, first.value, false);
    if (!legs || !('holes' in legs)) throw new Error(`${id} finds no holes`);
    const name = `U${board}`;
    this.parts.push({ id: name, kind: id, at, params });
    if (kind.group === 'switch') this.switches[name] = Array.from({ length: Number(params.poles ?? 8) }, () => this.chance(0.5));
    if (kind.group === 'memory' && this.chance(0.7))
      this.memories[name] = everyRow(Uint8Array.from({ length: WRITTEN }, () => Math.floor(256 * this.random())));
    for (const [i, { role }] of kind.pins(read.value).entries()) {
      const hole = legs.holes[i];
      if (!hole || !('column' in hole)) throw new Error(`${id} has no leg ${i + 1}`);
      const lower = 'abcde'.includes(hole.column);
      const free = [...(lower ? 'abc' : 'jih')].filter((column) => column !== hole.column);
      this.pins.push({ board, role, holes: free.map((column) => `B${board}:${column}${hole.row}`) });
    }
  }

  private join(): void {
    const { pins } = this;
    const inputs = pins.filter((p) => p.role === 'input' || p.role === 'both' || p.role === 'passive');
    const outputs = pins.filter((p) => p.role === 'output' || p.role === 'both' || p.role === 'passive');
    const from = outputs.length > 0 ? outputs : pins;
    for (const pin of pins) {
      if (pin.role === 'supply' && this.chance(0.97)) this.wire(pin.holes.pop(), this.railOf(pin, true));
      if (pin.role === 'ground' && this.chance(0.97)) this.wire(pin.holes.pop(), this.railOf(pin, false));
      if (pin.role === 'ground') this.two('capacitor', this.rail(pin.board, '+j'), this.rail(pin.board, '-j'));
    }
    for (const pin of inputs) {
      const how = this.random();
      if (how < 0.4 && pin.role !== 'passive') this.wire(pin.holes.pop(), this.railOf(pin, this.chance(0.4)));
      else if (how < 0.55) this.two('resistor', pin.holes.pop(), this.railOf(pin, this.chance(0.5)));
      else if (how < 0.8) this.wire(pin.holes.pop(), this.pick(from).holes.pop());
      else if (how < 0.9) {
        this.two('resistor', pin.holes.pop(), this.pick(from).holes.pop());
        this.two('capacitor', pin.holes.pop(), this.railOf(pin, false));
      }
    }
    for (const pin of outputs) {
      const how = this.random();
      if (how < 0.2) this.two('led', pin.holes.pop(), this.railOf(pin, false));
      else if (how < 0.35) this.two('resistor', pin.holes.pop(), this.railOf(pin, this.chance(0.5)));
      else if (how < 0.4)
        this.two(this.pick(TWO_LEGS), pin.holes.pop(), this.pick([this.railOf(pin, this.chance(0.5)), this.pick(pins).holes.pop()]));
      else if (how < 0.43) this.wire(pin.holes.pop(), this.railOf(pin, this.chance(0.5)));
    }
    if (this.chance(0.1)) {
      this.parts.push({ id: 'M1', kind: 'dc-motor', spot: [60, -20] });
      this.wire('M1.+', this.pick(from).holes.pop());
      this.wire('M1.-', this.rail(1, this.pick(['+j', '-j'])));
    }
  }

  private clock(): void {
    if (!this.chance(0.4)) return;
    this.parts.push({ id: 'CK1', kind: 'clock-generator', spot: [40, -20], params: { hertz: this.pick(HERTZ) } });
    this.wire('CK1.+', this.rail(1, '+j'));
    this.wire('CK1.-', this.rail(1, '-j'));
    this.wire('CK1.out', this.pick(this.pins).holes.pop());
  }
}
