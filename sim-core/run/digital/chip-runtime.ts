/** The digital half of a running bench: each chip in its slot, told of crossings in order of time, heard when it drives its pins. */
import { GROUND, type Node, type Pull } from '../../devices/network.ts';
import type { Level } from '../../parts/part.ts';
import type { FloatingInputs } from '../analog/floating-inputs.ts';
import type { Watch, Watches } from '../analog/threshold-crossings.ts';
import type { PullChoice, UnknownOutputs } from '../analog/unknown-outputs.ts';
import type { Circuit } from '../circuit/circuit.ts';
import type { BlockSet } from '../circuit/partition.ts';
import type { ChipInput, ChipSite } from '../circuit/sites.ts';
import {
  beginChip,
  type ChipListener,
  type ChipSlot,
  chipMarks,
  isBurnt,
  isSure,
  mayOf,
  moveSlot,
  newSlot,
  pullsNothing,
  type RunningChip,
  SPECIFIED,
  unknownTo,
} from './chip-slot.ts';

interface OutputPlace {
  readonly slot: RunningChip;
  readonly output: number;
}

/** carried: slots of the same bench before a rewiring, with chips that go on. given: those whose chip begins again at pins that stay as they are. */
export class ChipRuntime {
  private readonly circuit: Circuit;
  private readonly floatingInputs: FloatingInputs;
  private readonly unknownOutputs: UnknownOutputs;
  private readonly listener: ChipListener;
  readonly all: readonly RunningChip[];
  readonly byPart: ReadonlyMap<string, RunningChip>;
  private readonly list: Watch[] = [];
  private readonly sides: boolean[] = [];
  /** by slot: where its inputs' pairs of watches begin, then its supply's; one more for where the last one's end */
  private readonly firstWatch: Int32Array;
  private readonly above: Uint8Array;
  /** by slot and input: its block, and the outputs of other chips in that */
  private readonly blocksOf: Int32Array[];
  /** by block: the outputs in it */
  private readonly outputsIn = new Map<number, OutputPlace[]>();
  private readonly reaching: OutputPlace[][][];
  /** by slot and input, 1: other chips' outputs can reach it */
  private readonly listens: Uint8Array[];
  /** by slot and input, 1: one of its watches has just passed */
  private readonly crossed: Uint8Array[];
  /** by slot and input, 1: it was reached when its level was last looked at */
  private readonly wasReached: Uint8Array[];
  readonly watches: Watches;

  constructor(
    circuit: Circuit,
    floatingInputs: FloatingInputs,
    unknownOutputs: UnknownOutputs,
    listener: ChipListener,
    carried: ReadonlyMap<string, RunningChip>,
    given: ReadonlyMap<string, RunningChip>,
  ) {
    this.circuit = circuit;
    this.floatingInputs = floatingInputs;
    this.unknownOutputs = unknownOutputs;
    this.listener = listener;
    this.all = this.circuit.chips.map((site) => {
      const old = carried.get(site.placed.part.id);
      if (old?.site.placed.kind === site.placed.kind) return moveSlot(old, site, this.circuit.network);
      const slot = newSlot(site, this.circuit, this.listener);
      const pins = given.get(site.placed.part.id);
      for (const [i, level] of pins?.level.entries() ?? []) slot.level[i] = level;
      for (const [i, floats] of pins?.floating.entries() ?? []) slot.floating[i] = floats;
      for (const [i, above] of pins?.above.entries() ?? []) slot.above[i] = above;
      return slot;
    });
    this.byPart = new Map(this.all.map((s) => [s.site.placed.part.id, s]));
    this.firstWatch = new Int32Array(this.all.length + 1);
    for (const [k, { site, level, above }] of this.all.entries()) {
      for (const [i, pin] of site.inputs.entries()) {
        const { vil, vih } = pin.figures;
        const between = { a: pin.node, b: site.ground.node, ...(pin.of === undefined ? {} : { c: pin.of }) };
        this.watch({ ...between, mark: vil }, level[i] !== 'L');
        this.watch({ ...between, mark: vih }, level[i] === 'H');
      }
      for (const [i, { node, against, volts }] of chipMarks(site).entries())
        this.watch({ a: node, b: against, mark: volts }, above[i] === true);
      this.firstWatch[k + 1] = this.list.length;
    }
    this.above = Uint8Array.from(this.sides, (side) => (side ? 1 : 0));
    for (const slot of this.all)
      for (const [output, { node }] of slot.site.outputs.entries()) {
        const here = this.outputsIn.get(this.circuit.partition.blockOf(node));
        if (here) here.push({ slot, output });
        else this.outputsIn.set(this.circuit.partition.blockOf(node), [{ slot, output }]);
      }
    this.blocksOf = this.all.map(({ site }) => Int32Array.from(site.inputs, (pin) => this.circuit.partition.blockOf(pin.node)));
    this.reaching = this.all.map((slot, k) =>
      [...(this.blocksOf[k] as Int32Array)].map((block) => (this.outputsIn.get(block) ?? []).filter((o) => o.slot !== slot)),
    );
    this.listens = this.reaching.map((inputs) => Uint8Array.from(inputs, (outputs) => (outputs.length > 0 ? 1 : 0)));
    this.crossed = this.all.map(({ level }) => new Uint8Array(level.length));
    this.wasReached = this.all.map(({ level }) => new Uint8Array(level.length));
    this.watches = { list: this.list, above: this.above };
  }

  /** the bench has voltages for the first time */
  begin(x: Float64Array, end: Float64Array): void {
    for (const [k, slot] of this.all.entries()) {
      slot.volts = x;
      const marks = (this.firstWatch[k] as number) + 2 * slot.level.length;
      for (const i of slot.above.keys()) slot.above[i] = this.above[marks + i] === 1;
      for (const i of slot.level.keys()) {
        slot.floating[i] = this.floatingInputs.floats(slot.site, i, end);
        slot.level[i] = this.levelOf(slot, k, i);
        // what outputs drive is not known before all chips have begun
        if (slot.floating[i] === 'high' && this.outputsBeside(k, i).length > 0) slot.level[i] = this.waitForOutputs(k, i);
      }
      beginChip(slot, this.listener.now());
    }
  }

  /** passed: the watches that have changed sides; dirtyBlocks: the blocks in which what holds a pin may have changed too, as seen at `end` */
  deliver(passed: Int32Array, x: Float64Array, end: Float64Array, dirtyBlocks: BlockSet | undefined): void {
    this.noteCrossed(passed, 1);
    for (let k = 0; k < this.all.length; k++) {
      const slot = this.all[k] as RunningChip;
      slot.volts = x;
      if (passed.length > 0) this.crossMarks(slot, k, passed);
      const blocks = this.blocksOf[k] as Int32Array;
      const across = this.crossed[k] as Uint8Array;
      const listening = this.listens[k] as Uint8Array;
      const doubted = this.wasReached[k] as Uint8Array;
      for (let i = 0; i < blocks.length; i++) {
        const isDirty = dirtyBlocks?.has(blocks[i] as number) === true;
        if (!isDirty && across[i] === 0 && doubted[i] === 0 && (listening[i] === 0 || !this.isReached(k, i))) continue;
        if (isDirty) slot.floating[i] = this.floatingInputs.floats(slot.site, i, end);
        const before = slot.level[i] as Level;
        const level = this.levelOf(slot, k, i);
        if (level === before) continue;
        slot.level[i] = level;
        slot.chip.levelChanged(i, before, this.listener.now());
      }
    }
    this.noteCrossed(passed, 0);
  }

  /** the input that one of these watches is for, the lower of its two */
  inputAt(watch: number): { readonly site: ChipSite; readonly input: number } | undefined {
    const k = this.firstWatch.findLastIndex((first) => first <= watch);
    const slot = this.all[k];
    const place = watch - (this.firstWatch[k] as number);
    return slot && place % 2 === 0 && place < 2 * slot.level.length ? { site: slot.site, input: place / 2 } : undefined;
  }

  alarm(slot: ChipSlot, name: string): void {
    const now = this.listener.now();
    for (let k = 0; k < this.all.length; k++) {
      const here = this.all[k] as RunningChip;
      if (here !== slot) continue;
      if (name !== SPECIFIED) here.chip.alarm(name, now);
      else if (here.specified.alarm(name, now)) this.supplyJudged(here);
    }
  }

  /** What it drives is certain from now on, or no longer. */
  private supplyJudged(slot: RunningChip): void {
    for (const [o, pin] of slot.site.outputs.entries()) {
      const before = slot.may[o] as number;
      const after = mayOf(slot, o);
      slot.may[o] = after;
      // those who listen are told, though no voltage changes
      if (before !== after) this.listener.moved(pin.device, slot.pull[o] as Pull, slot.pull[o] as Pull);
    }
  }

  private watch(w: Watch, isAbove: boolean): void {
    this.list.push(w);
    this.sides.push(isAbove);
  }

  private noteCrossed(passed: Int32Array, value: 0 | 1): void {
    let k = 0;
    // both ascend
    for (let p = 0; p < passed.length; p++) {
      const w = passed[p] as number;
      while (w >= (this.firstWatch[k + 1] as number)) k += 1;
      const here = this.crossed[k] as Uint8Array;
      const input = (w - (this.firstWatch[k] as number)) >> 1;
      if (input < here.length) here[input] = value;
    }
  }

  /** Can another chip's output whose level is unknown reach this input? A chip that has too little supply itself may go on with what it is given. */
  private isReached(k: number, input: number): boolean {
    const outputs = (this.reaching[k] as (typeof this.reaching)[number])[input] as readonly OutputPlace[];
    const unknown = unknownTo(this.all[k] as RunningChip);
    for (let o = 0; o < outputs.length; o++) {
      const { slot, output } = outputs[o] as OutputPlace;
      if (unknown(slot, output)) return true;
    }
    return false;
  }

  /** Is it reached so, and does it matter what that output pulls? */
  private doubtful(k: number, input: number): boolean {
    const reached = this.isReached(k, input);
    (this.wasReached[k] as Uint8Array)[input] = reached ? 1 : 0;
    return reached && this.matters(k, input);
  }

  private matters(k: number, input: number): boolean {
    const slot = this.all[k] as RunningChip;
    const { site } = slot;
    const pin = site.inputs[input] as ChipInput;
    const level = this.unknownOutputs
      .possible(choicesAmong(this.all, unknownTo(slot)))
      .agreed(this.circuit.partition.blockOf(pin.node), (x) => levelAt(x, pin.node, site, pin));
    return level !== 'L' && level !== 'H';
  }

  private rawLevel(slot: RunningChip, first: number, input: number): Level {
    if (this.above[first + 2 * input + 1] === 1) return 'H';
    if (this.above[first + 2 * input] === 0) return 'L';
    const before = slot.level[input] as Level;
    return slot.site.inputs[input]?.figures.keeps && before !== 'X' ? before : 'X';
  }

  private levelOf(slot: RunningChip, k: number, input: number): Level {
    const floats = slot.floating[input];
    if (floats === 'anywhere' || isBurnt(slot.site, slot.site.inputs[input] as ChipInput) || this.doubtful(k, input)) return 'X';
    const first = this.firstWatch[k] as number;
    if (floats !== 'high') return this.rawLevel(slot, first, input);
    if (this.outputsBeside(k, input).some((o) => pullsNothing(o.slot, o.output))) return this.waitForOutputs(k, input);
    // one that counts as high where it rests is there as soon as it is low no more
    return this.above[first + 2 * input] === 1 ? 'H' : 'L';
  }

  /** An input that nothing holds, because it is unknown what an output beside it pulls. */
  private waitForOutputs(k: number, input: number): Level {
    (this.wasReached[k] as Uint8Array)[input] = 1;
    return 'X';
  }

  private outputsBeside(k: number, input: number): readonly OutputPlace[] {
    return this.outputsIn.get((this.blocksOf[k] as Int32Array)[input] as number) ?? [];
  }

  private crossMarks(slot: RunningChip, k: number, passed: Int32Array): void {
    const marks = (this.firstWatch[k] as number) + 2 * slot.level.length;
    const { supplyMarks } = slot.site.spec;
    for (let p = 0; p < passed.length; p++) {
      const place = (passed[p] as number) - marks;
      if (place < 0 || place >= slot.above.length) continue;
      const rising = this.above[marks + place] === 1;
      slot.above[place] = rising;
      const mark = supplyMarks[place];
      if (slot.site.certainFrom > 0 && place === slot.above.length - 1) {
        if (slot.specified.crossed(rising, this.listener.now())) this.supplyJudged(slot);
      } else if (mark !== undefined) slot.chip.supplyCrossed(mark, rising, this.listener.now());
      else slot.chip.markCrossed?.(place - supplyMarks.length, rising, this.listener.now());
    }
  }
}
/** The outputs whose pull is unknown and that count. */
export function choicesAmong(slots: readonly RunningChip[], counts: (slot: RunningChip, output: number) => boolean): PullChoice[] {
  const found: PullChoice[] = [];
  for (const slot of slots)
    for (let output = 0; output < slot.may.length; output++)
      if (!isSure(slot.may[output] as number) && counts(slot, output))
        found.push({ site: slot.site, output, may: slot.may[output] as number });
  return found;
}

/** A node's level as an input of this chip with these figures takes it, at node voltages x. */
export function levelAt(x: Float64Array, node: Node, { ground }: ChipSite, { figures, of }: Pick<ChipInput, 'figures' | 'of'>): Level {
  const at = (n: Node) => (n === GROUND ? 0 : (x[n] as number));
  const volts = at(node) - at(ground.node);
  const whole = of === undefined ? 1 : at(of) - at(ground.node);
  return volts <= figures.vil * whole ? 'L' : volts >= figures.vih * whole ? 'H' : 'X';
}
