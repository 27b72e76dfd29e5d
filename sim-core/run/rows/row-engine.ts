/**
 * The rows of a combinational bench without events: what its chips drive at these levels, and the rail's voltage at which all blocks rest.
 * The event engine judges: it solves every row in which a block stands as none of its kind has stood before, and every row of which something is unknown here.
 */
import type { Node, Pull } from '../../devices/network.ts';
import type { Level } from '../../parts/part.ts';
import { makeRandom } from '../../units/random.ts';
import type { BuiltCircuit } from '../built-circuit.ts';
import type { ContactSite } from '../circuit/sites.ts';
import { isDecided } from '../digital/chip-slot.ts';
import { BlockClass, type BlockRest } from './block-class.ts';
import { type Blocks, blocksOnRail, isCombinational } from './combinational.ts';
import { type Crowd, RailSolver } from './rail-solver.ts';

/** One state of a class that the event engine has shown. */
interface Known {
  readonly crowd: Omit<Crowd, 'count'>;
  /** of its inputs; an input that floats is X. States of a class that read alike share one list. */
  readonly levels: readonly Level[];
  readonly floats: readonly boolean[];
  /** what a block in this state adds to the key of a row */
  readonly key: number;
}

/** The bench's rail while so many blocks stand in each state. */
interface Solution {
  readonly counts: Int32Array;
  readonly volts: number;
  /** by known state: what its LEDs look like, and its voltages; undefined where none stands so */
  readonly brightnesses: readonly (Uint8Array | undefined)[];
  readonly x: readonly (Float64Array | undefined)[];
  /** false: at this voltage some input reads another level than it was seen to */
  readonly isRight: boolean;
}

/** Two answers for one voltage differ by less than this [V]. */
const ALIKE = 1e-7;

export class RowEngine {
  private readonly built: BuiltCircuit;
  private readonly blocks: Blocks;
  private readonly classes: readonly BlockClass[];
  private readonly rail: RailSolver;
  private readonly known: Known[] = [];
  /** by class: state → its place in `known` */
  private readonly places: readonly Map<number, number>[];
  /** by block */
  private readonly state: Float64Array;
  private readonly place: Int32Array;
  private readonly solutions = new Map<number, Solution[]>();
  private counts = new Int32Array(0);
  /** blocks that stand as none of their class was seen to */
  private strangers = 0;
  /** by chip, 1: an input of it may read another level than when it was last asked; and whether it knew what to drive */
  private readonly stale: Uint8Array;
  private readonly unsure: Uint8Array;
  private key = 0;
  private readonly random = makeRandom(1);
  private readonly pulls: readonly Uint8Array[];
  private readonly fresh = new Uint8Array(64);
  private readonly drawn: readonly string[];
  private readonly levelOf: readonly ((input: number) => Level)[];
  private volts: number;
  private last: Solution | undefined;

  /** Undefined where a bench is not combinational, as far as can be seen from how it is built. */
  static of(built: BuiltCircuit): RowEngine | undefined {
    const rail = isCombinational(built);
    return rail === undefined ? undefined : new RowEngine(built, rail);
  }

  private constructor(built: BuiltCircuit, rail: Node) {
    const { network } = built.circuit;
    this.built = built;
    this.blocks = blocksOnRail(built.circuit, rail);
    this.classes = this.blocks.samples.map((parts) => new BlockClass(network, rail, parts));
    this.rail = new RailSolver(network, rail);
    this.places = this.classes.map(() => new Map());
    this.state = new Float64Array(this.blocks.classOf.length);
    this.place = new Int32Array(this.blocks.classOf.length).fill(-1);
    this.pulls = built.runtime.all.map((slot) => new Uint8Array(slot.pull.length).fill(-1));
    this.stale = new Uint8Array(this.pulls.length).fill(1);
    this.unsure = new Uint8Array(this.pulls.length);
    this.drawn = built.runtime.all.map((slot) => slot.draws);
    this.volts = built.solver.end[rail] as number;
    this.levelOf = this.blocks.inputs.map((inputs, k) => (input) => {
      const at = inputs[input];
      if (!at || at.block < 0) return (built.runtime.all[k]?.level[input] ?? 'X') as Level;
      return this.known[this.place[at.block] as number]?.levels[at.input] ?? 'X';
    });
    this.adopt();
  }

  /** a switch moves; nothing is solved yet */
  setContact(site: ContactSite, closed: boolean): void {
    const at = this.blocks.contacts.get(site);
    if (!at) return;
    const now = Math.floor((this.state[at.block] as number) / at.weight) % 2;
    this.enter(at.block, (this.state[at.block] as number) + ((closed ? 1 : 0) - now) * at.weight);
  }

  /** Places in BRIGHTNESSES of all LEDs with the switches as they stand; false: the event engine has to look at this row. */
  solve(into: Uint8Array): boolean {
    if (!this.drive()) return false;
    const solution = this.solution();
    this.last = solution;
    if (!solution?.isRight) return false;
    const { leds } = this.blocks;
    for (let b = 0; b < leds.length; b++) {
      const at = leds[b] as Int32Array;
      if (at.length === 0) continue;
      const seen = solution.brightnesses[this.place[b] as number] as Uint8Array;
      for (let i = 0; i < at.length; i++) into[at[i] as number] = seen[i] as number;
    }
    return true;
  }

  /** Node voltages of the row that was solved last [V], the nodes that are not solved for among them. */
  voltages(into: Float64Array): void {
    const { last } = this;
    if (!last) return;
    for (let b = 0; b < this.place.length; b++) {
      const x = last.x[this.place[b] as number] as Float64Array;
      const nodes = this.blocks.nodes[b] as readonly Node[];
      for (let i = 0; i < nodes.length; i++) into[nodes[i] as number] = x[i] as number;
    }
    into[this.blocks.rail] = last.volts;
    this.built.circuit.network.complete(into);
  }

  /** The event engine has come to rest in this row: what it shows is learnt. False if it contradicts what this engine would have said. */
  learn(brightnesses: Uint8Array): boolean {
    const { runtime, solver } = this.built;
    if (!runtime.all.every(isDecided) || runtime.all.some((slot, k) => slot.draws !== this.drawn[k])) return true;
    if (!this.answersAlike()) return false;
    solver.complete();
    this.adopt();
    const solution = this.solution();
    this.last = solution;
    if (!solution?.isRight) return true;
    for (let b = 0; b < this.place.length; b++) {
      if (this.isDoubtful(b)) continue;
      const x = solution.x[this.place[b] as number] as Float64Array;
      const nodes = this.blocks.nodes[b] as readonly Node[];
      for (let i = 0; i < nodes.length; i++)
        if (!(Math.abs((x[i] as number) - (solver.x[nodes[i] as number] as number)) < ALIKE)) return false;
    }
    const { leds } = this.blocks;
    return leds.every((at, b) => at.every((led, i) => solution.brightnesses[this.place[b] as number]?.[i] === brightnesses[led]));
  }

  /** an input floats here, so that voltages are what leakage makes of them */
  private isDoubtful(block: number): boolean {
    return this.known[this.place[block] as number]?.levels.includes('X') ?? true;
  }

  /** Would every chip have driven what it drives, at the levels that it reads? */
  private answersAlike(): boolean {
    return this.built.runtime.all.every(({ chip, level, pull }) => {
      const answered = chip.settled?.((input) => level[input] ?? 'X', this.fresh);
      return !answered || pull.every((p, o) => p === this.fresh[o]);
    });
  }

  /** Takes over how the event engine's contacts and outputs stand, and what it has not seen of a class before. */
  private adopt(): void {
    const { circuit, runtime } = this.built;
    this.state.fill(0);
    for (const [site, { block, weight }] of this.blocks.contacts) {
      const closed = circuit.network.conductance(site.device) === 1 / site.contact.on;
      this.state[block] = (this.state[block] as number) + (closed ? weight : 0);
    }
    for (const [k, { pull }] of runtime.all.entries())
      for (const [o, { block, weight }] of (this.blocks.outputs[k] ?? []).entries()) {
        (this.pulls[k] as Uint8Array)[o] = pull[o] as Pull;
        this.state[block] = (this.state[block] as number) + (pull[o] as number) * weight;
      }
    for (const [block, kind] of this.blocks.classOf.entries())
      if (!this.places[kind]?.has(this.state[block] as number)) this.meet(block, kind, this.state[block] as number);
    this.counts = new Int32Array(this.known.length);
    this.key = 0;
    this.strangers = 0;
    this.stale.fill(1);
    for (const [block, kind] of this.blocks.classOf.entries()) {
      const place = this.places[kind]?.get(this.state[block] as number) ?? -1;
      this.place[block] = place;
      if (place < 0) this.strangers += 1;
      if (place < 0) continue;
      this.counts[place] = (this.counts[place] as number) + 1;
      this.key += (this.known[place] as Known).key;
    }
  }

  /** Keeps how a block of this class reads in this state. */
  private meet(block: number, kind: number, state: number): void {
    const { runtime, solver } = this.built;
    const at = this.classes[kind] as BlockClass;
    const rest = at.at(state, solver.x[this.blocks.rail] as number);
    if (!rest) return;
    const here = at.levels(rest);
    const readers = (this.blocks.readers[block] ?? []).map(({ chip, input }) => ({
      level: runtime.all[chip]?.level[input] ?? 'X',
      floats: runtime.all[chip]?.floating[input],
    }));
    const levels = readers.map((r) => r.level);
    this.places[kind]?.set(state, this.known.length);
    const alike = this.known.find((k) => k.crowd.class === at && k.levels.join() === levels.join());
    this.known.push({
      crowd: { class: at, state },
      levels: alike?.levels ?? levels,
      floats: readers.map(({ level, floats }, i) => level !== here[i] && (level === 'X' || floats === 'high')),
      key: Math.floor(this.random() * 2 ** 40),
    });
  }

  /** One block stands in another state. */
  private enter(block: number, state: number): void {
    const before = this.place[block] as number;
    const after = this.places[this.blocks.classOf[block] as number]?.get(state) ?? -1;
    this.state[block] = state;
    this.place[block] = after;
    this.strangers += (after < 0 ? 1 : 0) - (before < 0 ? 1 : 0);
    if (this.known[before]?.levels !== this.known[after]?.levels) {
      const followers = this.blocks.followers[block] as readonly number[];
      for (let i = 0; i < followers.length; i++) this.stale[followers[i] as number] = 1;
    }
    if (before >= 0) {
      this.counts[before] = (this.counts[before] as number) - 1;
      this.key -= (this.known[before] as Known).key;
    }
    if (after >= 0) {
      this.counts[after] = (this.counts[after] as number) + 1;
      this.key += (this.known[after] as Known).key;
    }
  }

  /** Lets the chips drive until nothing changes any more, which it does where nothing waits for itself; false: something is unknown. */
  private drive(): boolean {
    const { stale, unsure } = this;
    for (let round = 0; round <= stale.length; round++) {
      let changed = false;
      for (let k = 0; k < stale.length; k++) {
        if (stale[k] === 0) continue;
        stale[k] = 0;
        unsure[k] = this.ask(k) ? 0 : 1;
        changed = true;
      }
      if (!changed) return this.strangers === 0 && unsure.indexOf(1) < 0;
    }
    return false;
  }

  /** What this chip drives at the levels that it reads now; false if that is unknown. */
  private ask(k: number): boolean {
    const { fresh } = this;
    if (!this.built.runtime.all[k]?.chip.settled?.(this.levelOf[k] as (input: number) => Level, fresh)) return false;
    const pulls = this.pulls[k] as Uint8Array;
    const places = this.blocks.outputs[k] as Blocks['outputs'][number];
    for (let o = 0; o < places.length; o++) {
      const by = (fresh[o] as number) - (pulls[o] as number);
      if (by === 0) continue;
      const { block, weight } = places[o] as (typeof places)[number];
      pulls[o] = fresh[o] as number;
      this.enter(block, (this.state[block] as number) + by * weight);
    }
    return true;
  }

  private solution(): Solution | undefined {
    const held = this.solutions.get(this.key);
    const known = held?.find((s) => isEqual(s.counts, this.counts));
    if (known) return known;
    const crowds: Crowd[] = [];
    for (const [place, { crowd }] of this.known.entries())
      if ((this.counts[place] as number) > 0) crowds.push({ ...crowd, count: this.counts[place] as number });
    const volts = this.rail.solve(this.volts, crowds);
    if (volts === undefined) return undefined;
    this.volts = volts;
    const found = this.lookAt(volts);
    if (held) held.push(found);
    else this.solutions.set(this.key, [found]);
    return found;
  }

  private lookAt(volts: number): Solution {
    const rests = this.known.map(({ crowd }, place) =>
      (this.counts[place] as number) > 0 ? crowd.class.at(crowd.state, volts) : undefined,
    );
    const isRight = rests.every((rest, place) => !rest || readsAlike(this.known[place] as Known, rest));
    return {
      counts: this.counts.slice(),
      volts,
      brightnesses: rests.map((rest, place) => rest && this.known[place]?.crowd.class.brightnesses(rest)),
      x: rests.map((rest) => rest?.x.slice()),
      isRight: isRight && this.blocks.staysAt(volts),
    };
  }
}

/** Do its inputs read what they were seen to? */
function readsAlike({ crowd, levels, floats }: Known, rest: BlockRest): boolean {
  return crowd.class.levels(rest).every((level, i) => floats[i] || level === levels[i]);
}

function isEqual(a: Int32Array, b: Int32Array): boolean {
  // states that were met later are at 0 in what was counted before
  const most = Math.max(a.length, b.length);
  for (let i = 0; i < most; i++) if ((a[i] ?? 0) !== (b[i] ?? 0)) return false;
  return true;
}
