/**
 * Rows of a bench without events: what its chips drive at these levels, and the voltages at which all blocks rest.
 * The event engine judges: it solves every row in which a block is in a state that none of its class has been seen in, and every row of which something is unknown here.
 */
import type { Node, Pull } from '../../devices/network.ts';
import type { Chip, Level } from '../../parts/part.ts';
import type { BuiltCircuit } from '../built-circuit.ts';
import type { Circuit } from '../circuit/circuit.ts';
import type { ContactSite } from '../circuit/sites.ts';
import { isDecided } from '../digital/chip-slot.ts';
import { BlockStates, type LevelBits } from './block-states.ts';
import { type Blocks, blocksOnRails, type Digit } from './blocks.ts';
import { type Moved, whatMoves } from './combinational.ts';
import { type RowReadings, readLeds, readMemories } from './row-readings.ts';
import { exact, SupplyRail } from './supply-rail.ts';

/** Two answers for one voltage differ by less than this [V]. */
const ALIKE = 1e-8;

export class RowEngine {
  private readonly built: BuiltCircuit;
  private readonly states: BlockStates;
  private readonly contacts: Blocks['contacts'];
  private readonly chips: readonly Chip[];
  /** places of those that rows move */
  private readonly moved: Int32Array;
  /** by chip: what each of its outputs pulls here, and what it draws */
  private readonly pulls: readonly Uint8Array[];
  private readonly draws: ('working' | 'resting')[];
  private readonly outputs: Blocks['outputs'];
  private readonly railOf: readonly (SupplyRail | undefined)[];
  /** by chip, 1: it did not know what to drive when it was last asked */
  private readonly unsure: Uint8Array;
  private readonly fresh = new Uint8Array(64);
  /** by chip: the levels that it reads */
  private readonly levels: readonly LevelBits[];
  /** by chip and output: its block, and what a pull counts in that block's state */
  private readonly outputBlocks: readonly Int32Array[];
  private readonly outputWeights: readonly Int32Array[];
  private readonly looks: Uint8Array;
  private readonly x: Float64Array;

  /** contacts: those that rows move. looks: places in BRIGHTNESSES of all LEDs, which every solved row writes. Undefined where such rows do not follow from levels. */
  static of(built: BuiltCircuit, contacts: readonly ContactSite[], looks: Uint8Array): RowEngine | undefined {
    const moved = whatMoves(built, contacts);
    const blocks = moved && blocksOnRails(built.circuit, moved.rails);
    const engine = blocks && new RowEngine(built, moved, blocks, looks);
    return engine?.states.begin() ? engine : undefined;
  }

  private constructor(built: BuiltCircuit, { rails, chips: moved }: Moved, blocks: Blocks, looks: Uint8Array) {
    const { circuit, runtime } = built;
    this.built = built;
    this.contacts = blocks.contacts;
    this.outputs = blocks.outputs;
    this.moved = Int32Array.from(moved);
    this.looks = looks;
    this.pulls = runtime.all.map(({ pull }) => Uint8Array.from(pull));
    this.draws = runtime.all.map((slot) => slot.draws);
    this.unsure = new Uint8Array(this.pulls.length);
    this.levels = runtime.all.map(({ level }) => bitsOf(level));
    this.outputBlocks = blocks.outputs.map((list) => Int32Array.from(list, ({ block }) => block));
    this.outputWeights = blocks.outputs.map((list) => Int32Array.from(list, ({ weight }) => weight));
    const made = rails.map((node) => new SupplyRail(circuit.network, node, built.solver.end[node] as number, marksOn(circuit, node)));
    this.states = new BlockStates(circuit.network, blocks, made, this.levels, looks);
    this.railOf = circuit.chips.map(({ supply }) => made.find((r) => r.node === supply.node));
    this.chips = runtime.all.map(({ chip }) => chip);
    this.x = new Float64Array(circuit.network.n + 1);
    for (const k of moved) this.states.stale[k] = 1;
  }

  /** A switch moves; nothing is solved yet. */
  setContact(site: ContactSite, closed: boolean): void {
    const digit = this.contacts.get(site);
    if (!digit) return;
    const { block, weight } = digit;
    const state = this.states.state[block] as number;
    const now = Math.floor(state / weight) % 2;
    this.states.enter(block, state + ((closed ? 1 : 0) - now) * weight);
  }

  /** Solves the row in which the switches are now; false: the event engine has to look at it. */
  solve(): boolean {
    return this.drive() && this.states.settle();
  }

  /** Node voltages of the row that was solved last [V], the nodes that are not solved for among them. */
  voltages(into: Float64Array): void {
    const { states } = this;
    states.voltages(into);
    this.built.circuit.network.complete(into);
  }

  /** What the row that was solved last shows. */
  readings(): RowReadings {
    const { built, x } = this;
    this.voltages(x);
    return { memories: readMemories(built.circuit, this.levels, this.pulls), leds: readLeds(built.circuit, x, this.looks) };
  }

  /** The event engine has come to rest in this row, and has written the looks: what it shows is learnt. False if it contradicts what this engine would have said. */
  learn(): boolean {
    const { all } = this.built.runtime;
    this.states.forget();
    if (!all.every(isDecided)) return true;
    if (!this.answersAlike()) return false;
    this.built.solver.complete();
    return this.adopt() && this.looksAlike();
  }

  /** Would every chip have driven what it drives, at the levels that it reads? Chips that no row moves have to be as they were. */
  private answersAlike(): boolean {
    const { fresh } = this;
    return this.built.runtime.all.every((slot, k) => {
      const { chip, level, pull } = slot;
      if (!this.moved.includes(k)) return slot.draws === this.draws[k] && pull.every((p, o) => p === this.pulls[k]?.[o]);
      const draws = chip.settled?.(bitsOf(level), fresh);
      return draws === undefined || (draws === slot.draws && pull.every((p, o) => p === fresh[o]));
    });
  }

  /** Takes over what the event engine's contacts, chips and inputs are, and the states that it shows for the first time. False if one reads otherwise than it did. */
  private adopt(): boolean {
    const { circuit, runtime } = this.built;
    const { states } = this;
    const now = new Int32Array(states.state.length);
    const count = ({ block, weight }: Digit, value: number): void => {
      now[block] = (now[block] as number) + value * weight;
    };
    for (const [site, digit] of this.contacts) if (circuit.network.conductance(site.device) === 1 / site.contact.on) count(digit, 1);
    for (const [k, slot] of runtime.all.entries()) {
      for (const [o, pull] of slot.pull.entries()) {
        (this.pulls[k] as Uint8Array)[o] = pull;
        count(this.outputs[k]?.[o] as Digit, pull);
      }
      this.draw(k, slot.draws);
      states.stale[k] = 0;
      this.unsure[k] = 0;
    }
    return now.every((state, block) => {
      const readers = states.blocks.readers[block] ?? [];
      const levels = readers.map(({ chip, input }) => runtime.all[chip]?.level[input] ?? 'X');
      const countsHigh = readers.map(({ chip, input }) => runtime.all[chip]?.floating[input] === 'high');
      states.meet(block, state, levels, countsHigh);
      states.enter(block, state);
      return states.levelsOf(block)?.every((level, i) => level === levels[i]) === true;
    });
  }

  /** Does this engine find for this row what the event engine has found? */
  private looksAlike(): boolean {
    const { solver } = this.built;
    const { states, x } = this;
    const seen = this.looks.slice();
    if (!states.settle()) {
      this.looks.set(seen);
      states.forget();
      return true;
    }
    this.voltages(x);
    const alike = states.blocks.parts.every(
      ({ nodes }, b) => states.floats(b) || nodes.every((node) => Math.abs((x[node] as number) - (solver.x[node] as number)) < ALIKE),
    );
    return alike && seen.every((look, i) => look === this.looks[i]);
  }

  /** Lets the chips drive until nothing changes any more, which it does where nothing waits for itself; false: something is unknown. */
  private drive(): boolean {
    const { moved, unsure } = this;
    const { stale } = this.states;
    for (let round = 0; round <= moved.length; round++) {
      let changed = false;
      for (let i = 0; i < moved.length; i++) {
        const k = moved[i] as number;
        if (stale[k] === 0) continue;
        stale[k] = 0;
        unsure[k] = this.ask(k) ? 0 : 1;
        changed = true;
      }
      if (!changed) return unsure.indexOf(1) < 0;
    }
    return false;
  }

  /** What this chip drives at the levels that it reads now; false if that is unknown. */
  private ask(k: number): boolean {
    const { fresh, states } = this;
    const draws = (this.chips[k] as Chip).settled?.(this.levels[k] as LevelBits, fresh);
    if (draws === undefined) return false;
    this.draw(k, draws);
    const pulls = this.pulls[k] as Uint8Array;
    const blocks = this.outputBlocks[k] as Int32Array;
    const weights = this.outputWeights[k] as Int32Array;
    for (let o = 0; o < blocks.length; o++) {
      const by = (fresh[o] as number) - (pulls[o] as number);
      if (by === 0) continue;
      const block = blocks[o] as number;
      pulls[o] = fresh[o] as Pull;
      states.enter(block, (states.state[block] as number) + by * (weights[o] as number));
    }
    return true;
  }

  private draw(k: number, draws: 'working' | 'resting'): void {
    if (draws === this.draws[k]) return;
    const rail = this.railOf[k];
    const drains = this.built.circuit.chips[k]?.drains;
    if (rail && drains) rail.drains += exact(drains[draws] - drains[this.draws[k] as 'working' | 'resting']);
    this.draws[k] = draws;
  }
}

/** Levels of a chip's inputs as bits. */
function bitsOf(levels: readonly Level[]): LevelBits {
  const bits = { value: 0, unknown: 0 };
  for (const [input, level] of levels.entries()) {
    if (level === 'H') bits.value |= 1 << input;
    else if (level === 'X') bits.unknown |= 1 << input;
  }
  return bits;
}

/** The voltages of this rail at whose crossing a chip is told, or an input on the rail itself reads another level. */
function marksOn({ chips }: Circuit, rail: Node): number[] {
  return chips.flatMap(({ inputs, spec, supply, certainFrom }) => [
    ...(supply.node === rail ? [...spec.supplyMarks, certainFrom] : []),
    ...inputs.flatMap(({ node, figures, of }) => (node === rail && of === undefined ? [figures.vil, figures.vih] : [])),
  ]);
}
