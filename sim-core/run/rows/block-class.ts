/** Blocks of a circuit that are equal but for where they stand: one of them, solved between its rail and ground, speaks for all. */
import { type Device, GROUND, LEAKAGE_TO_GROUND, type Network, type Node, type Pull } from '../../devices/network.ts';
import type { Level } from '../../parts/part.ts';
import type { Equations } from '../../solve/equations.ts';
import { makeNewton, type Newton, newton } from '../../solve/newton.ts';
import { slotOf } from '../../solve/pattern.ts';
import type { ChipInput, ContactSite, LedSite } from '../circuit/sites.ts';
import { brightnessPlace } from '../readout/measure.ts';

/** What stands in one block: its nodes that are solved for, what in it has states, and what is read off it. */
export interface BlockParts {
  readonly nodes: readonly Node[];
  readonly contacts: readonly ContactSite[];
  readonly outputs: readonly Device[];
  readonly inputs: readonly ChipInput[];
  readonly leds: readonly LedSite[];
}

/** One state of a class, at rest at some voltage of its rail. */
export interface BlockRest {
  /** of the rail [V] */
  volts: number;
  /** node voltages in the order of BlockParts.nodes, then the rail's and ground */
  readonly x: Float64Array;
  /** by how much they follow the rail */
  readonly slope: Float64Array;
  /** what the block takes from its rail [A], its magnitude before cancelling, and by how much it grows with the rail [S] */
  amps: number;
  magnitude: number;
  siemens: number;
}

/** So stiff that a rail held by it does not move [S]. */
const HELD = 1e30;

/** The states of a class are numbers: contacts count 0 open, 1 closed; outputs 0 off, 1 low, 2 high; each times its weight. */
export class BlockClass {
  readonly parts: BlockParts;
  /** by contact, then by output: what one more counts in the state's number */
  private readonly weights: readonly number[];
  private readonly whole: Network;
  private readonly part: Network;
  private readonly rail: Node;
  private readonly contacts: readonly Device[];
  private readonly outputs: readonly Device[];
  private readonly solver: Newton;
  private readonly toRail: Int32Array;
  private readonly residual: Float64Array;
  private readonly magnitude: Float64Array;
  private readonly scratch: Float64Array;
  private readonly rests = new Map<number, BlockRest>();

  constructor(whole: Network, rail: Node, parts: BlockParts) {
    this.whole = whole;
    this.rail = rail;
    this.parts = parts;
    this.part = whole.extract([...parts.nodes, rail], [rail]);
    this.part.follow();
    this.contacts = parts.contacts.map((c) => this.part.within(c.device));
    this.outputs = parts.outputs.map((d) => this.part.within(d));
    this.weights = weightsOf(parts);
    const n = parts.nodes.length;
    this.solver = makeNewton(railHeld(this.part, n));
    this.toRail = Int32Array.from(parts.nodes, (_, i) => slotOf(this.part.pattern, i, n));
    this.residual = new Float64Array(n + 2);
    this.magnitude = new Float64Array(n + 2);
    this.scratch = new Float64Array(whole.n + 1);
  }

  /** the class at rest in this state with this much on its rail [V]; undefined if that was not found. Written again by the next call for the same state. */
  at(state: number, volts: number): BlockRest | undefined {
    const known = this.rests.get(state);
    if (known?.volts === volts) return known;
    const rest = known ?? this.begin(state, volts);
    const n = this.parts.nodes.length;
    const { x, slope } = rest;
    const moved = volts - rest.volts;
    for (let i = 0; i < n; i++) x[i] = (x[i] as number) + moved * (slope[i] as number);
    x[n] = volts;
    this.set(state);
    if (!newton(this.solver, x).ok) {
      this.rests.delete(state);
      return undefined;
    }
    rest.volts = volts;
    this.measure(rest);
    return rest;
  }

  /** places in BRIGHTNESSES of its LEDs at this rest */
  brightnesses(rest: BlockRest): Uint8Array {
    this.spread(rest);
    return Uint8Array.from(this.parts.leds, (led) => brightnessPlace(this.whole.flow(led.device, this.scratch).i, led));
  }

  /** levels of its inputs at this rest, without asking whether they float */
  levels({ volts, x }: BlockRest): Level[] {
    return this.parts.inputs.map(({ node, figures, of }) => {
      const at = x[this.parts.nodes.indexOf(node)] as number;
      const whole = of === undefined ? 1 : volts;
      return at <= figures.vil * whole - NEAR ? 'L' : at >= figures.vih * whole + NEAR ? 'H' : 'X';
    });
  }

  private begin(state: number, volts: number): BlockRest {
    const n = this.parts.nodes.length;
    const rest: BlockRest = {
      volts,
      x: new Float64Array(n + 2),
      slope: new Float64Array(n + 2),
      amps: 0,
      magnitude: 0,
      siemens: 0,
    };
    this.rests.set(state, rest);
    return rest;
  }

  private set(state: number): void {
    const { contacts, outputs, part, parts, weights } = this;
    for (let i = 0; i < contacts.length; i++) {
      const { on, off } = (parts.contacts[i] as ContactSite).contact;
      part.setConductance(contacts[i] as Device, 1 / (digitOf(state, weights[i] as number, 2) === 1 ? on : off));
    }
    for (let i = 0; i < outputs.length; i++)
      part.setPull(outputs[i] as Device, digitOf(state, weights[contacts.length + i] as number, 3) as Pull);
  }

  /** What the solved block takes from its rail, and how both follow it. */
  private measure(rest: BlockRest): void {
    const n = this.parts.nodes.length;
    const { x, slope } = rest;
    const { jacobian, linear } = this.solver;
    this.part.evaluate(x, this.residual, this.magnitude, jacobian);
    // every node leaks to ground; the rail is counted once, not with each block
    rest.amps = (this.residual[n] as number) - LEAKAGE_TO_GROUND * rest.volts;
    rest.magnitude = this.magnitude[n] as number;
    const diagonal = slotOf(this.part.pattern, n, n);
    let siemens = (jacobian[diagonal] as number) - LEAKAGE_TO_GROUND;
    for (let i = 0; i < n; i++) slope[i] = (this.toRail[i] as number) < 0 ? 0 : (jacobian[this.toRail[i] as number] as number);
    jacobian[diagonal] = HELD;
    slope[n] = 0;
    linear.refactor(jacobian);
    for (let i = 0; i < n; i++) this.residual[i] = slope[i] as number;
    this.residual[n] = 0;
    linear.solve(this.residual, slope);
    for (let i = 0; i < n; i++)
      if ((this.toRail[i] as number) >= 0) siemens += (jacobian[this.toRail[i] as number] as number) * (1 - (slope[i] as number));
    slope[n] = 0;
    rest.siemens = siemens;
  }

  private spread({ x, volts }: BlockRest): void {
    for (const [i, node] of this.parts.nodes.entries()) this.scratch[node] = x[i] as number;
    this.scratch[this.rail] = volts;
    this.scratch[this.whole.n] = 0;
  }
}

/** An input that is so near to a threshold is not judged here [V]. */
const NEAR = 1e-6;

/** By contact, then by output: what one step of it counts in the number of a block's state. */
export function weightsOf({ contacts, outputs }: BlockParts): number[] {
  const radices = [...contacts.map(() => 2), ...outputs.map(() => 3)];
  return radices.map((_, i) => radices.slice(0, i).reduce((product, r) => product * r, 1));
}

const digitOf = (state: number, weight: number, radix: number): number => Math.floor(state / weight) % radix;

/** The equations of a block whose last node, the rail, keeps its voltage. */
function railHeld(part: Network, rail: number): Equations {
  const diagonal = slotOf(part.pattern, rail, rail);
  return {
    n: part.n,
    pattern: part.pattern,
    evaluate(x, residual, magnitude, jacobian) {
      part.evaluate(x, residual, magnitude, jacobian);
      residual[rail] = 0;
      if (jacobian) jacobian[diagonal] = HELD;
    },
    addMass: (values, scale) => part.addMass(values, scale),
    massTimes: (x, out) => part.massTimes(x, out),
  };
}

/** Which blocks are equal, as text: all that makes them what they are, with nodes by their place in the block. */
export function blockTexts(whole: Network, of: Int32Array, rail: Node, parts: readonly BlockParts[]): string[] {
  const varies = new Map(
    parts.flatMap((p) => p.contacts.map((c) => [c.device.index, `contact ${c.contact.on} ${c.contact.off}`] as const)),
  );
  const place = new Int32Array(whole.n);
  const sizes = parts.map(() => 0);
  for (let node = 0; node < whole.n; node++) {
    const block = of[node] as number;
    if (block < 0) continue;
    place[node] = sizes[block] as number;
    sizes[block] = (sizes[block] as number) + 1;
  }
  const nameOf = (node: Node) => (node === GROUND ? '0' : node === rail ? '+' : `n${place[node]}`);
  const texts = parts.map((p): string[] => [
    p.nodes.map(nameOf).join(),
    ...p.contacts.map((c) => `contact ${whole.nodesOf(c.device).map(nameOf)}`),
    ...p.outputs.map((d) => `output ${whole.nodesOf(d).map(nameOf)}`),
    ...p.inputs.map(
      ({ node, figures, of: part }) =>
        `input ${nameOf(node)} ${figures.vil} ${figures.vih} ${part !== undefined} ${figures.leakage} ${figures.sinks} ${figures.openHigh}`,
    ),
    ...p.leds.map(({ device, led }) => `led ${whole.nodesOf(device).map(nameOf)} ${led.mostCurrent.value}`),
  ]);
  for (const { nodes, text } of whole.described(varies)) {
    const block = nodes.map((node) => (node === GROUND ? -1 : (of[node] as number))).find((b) => b >= 0);
    if (block !== undefined) texts[block]?.push(`${text} ${nodes.map(nameOf)}`);
  }
  return texts.map((lines) => lines.join('\n'));
}
