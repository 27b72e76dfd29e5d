/** A bench of blocks in one row after the other: what its chips pull at these levels, and the voltages at which all of it rests. Where it cannot tell, it says so. */
import type { Plan } from '../../../shared/plan.ts';
import { OFF, PULL_HIGH, PULL_LOW } from '../../devices/network.ts';
import type { Chip, Level } from '../../parts/part.ts';
import type { BlockCurve } from '../rows/block-reader.ts';
import { type Range, TERMS, valueAt } from '../rows/polynomial.ts';
import { GROUNDED, type MetalPlace, RAILED } from './assembly.ts';
import type { BenchBlocks } from './bench-blocks.ts';
import type { JudgedState } from './block-model.ts';
import { askingOrder, type ChipTurn } from './chip-order.ts';
import { chipAlone } from './chips-alone.ts';

/** More moves of a rail than this have no end. */
const MOST_MOVES = 40;

class RunningBlock {
  number = 0;
  /** by output; all 0: every pull is known */
  readonly doubts: number[];
  doubtful = 0;
  judged: JudgedState | undefined;
  curve: BlockCurve | undefined;
  /** what `curve` is of */
  curveNumber = -1;
  range: Range | undefined;
  stale = true;

  constructor(outputs: number) {
    this.doubts = new Array<number>(outputs).fill(0);
  }
}

interface AloneChip {
  readonly chip: Chip;
  /** of its inputs, bit by bit */
  readonly levels: { value: number; unknown: number };
  readonly may: Uint8Array;
  /** by input and by output: 1 where its bond is burnt open, so that it reads X, or pulls nothing */
  readonly deaf: Uint8Array;
  readonly mute: Uint8Array;
  readonly rail: number;
  readonly drains: { readonly working: number; readonly resting: number };
  draws: 'working' | 'resting';
  stale: boolean;
}

export class StillBench {
  private readonly states: readonly RunningBlock[];
  private readonly chips: readonly AloneChip[];
  /** by chip, then by output: its block, its place there, and what a pull counts in its state */
  private readonly outputs: readonly (readonly { readonly block: number; readonly place: number; readonly weight: number }[])[];
  private readonly ranges: readonly Range[];
  private readonly marks: readonly (readonly number[])[];
  private readonly everyBlock: Int32Array;
  private readonly fresh = new Uint8Array(64);

  /** Undefined where some chip needs more than levels, or there is a chip that waits for itself. */
  static of(bench: BenchBlocks, plan: Plan): StillBench | undefined {
    const able = bench.chips.every(({ part, chip, rail }) => {
      const { volts } = bench.rails[rail] as BenchBlocks['rails'][number];
      return volts >= chip.site.certainFrom && chipAlone(chip.site.spec, part, plan.memories[part], plan.cells?.[part], volts).mayPull;
    });
    const order = able ? askingOrder(bench) : undefined;
    if (!order) return undefined;
    // a rail is where it was left by the bench before
    const stand = bench.rails.every(({ balance, range, volts }) => {
      balance.range = range;
      return balance.goTo(volts);
    });
    return stand ? new StillBench(bench, order, plan) : undefined;
  }

  private constructor(
    private readonly bench: BenchBlocks,
    private readonly order: readonly ChipTurn[],
    plan: Plan,
  ) {
    this.everyBlock = Int32Array.from(bench.blocks.keys());
    this.states = bench.blocks.map((b) => new RunningBlock(b.outputs.length));
    this.ranges = bench.rails.map(({ range }) => range);
    this.chips = bench.chips.map(({ part, chip, rail, inputs }): AloneChip => {
      const { volts } = bench.rails[rail] as BenchBlocks['rails'][number];
      const levels = { value: 0, unknown: 0 };
      const isBurnt = ({ name }: { readonly name: string }) => (chip.site.burnt.has(name) ? 1 : 0);
      const deaf = Uint8Array.from(chip.site.inputs, isBurnt);
      for (const [i, place] of inputs.entries())
        putLevel(levels, i, place.block >= 0 || deaf[i] === 1 ? 'X' : this.levelOn(chip.site.inputs[i]?.figures, place, rail));
      return {
        chip: chipAlone(chip.site.spec, part, plan.memories[part], plan.cells?.[part], volts),
        levels,
        may: new Uint8Array(chip.site.outputs.length).fill(1 << OFF),
        deaf,
        mute: Uint8Array.from(chip.site.outputs, isBurnt),
        rail,
        drains: chip.site.drains,
        draws: 'resting',
        stale: true,
      };
    });
    const outputs: { block: number; place: number; weight: number }[][] = bench.chips.map(() => []);
    for (const [block, { model, contacts, outputs: own }] of bench.blocks.entries())
      for (const [place, { chip, output }] of own.entries())
        (outputs[chip] as (typeof outputs)[number])[output] = { block, place, weight: model.weights[contacts.length + place] as number };
    this.outputs = outputs;
    this.marks = bench.rails.map((_, r) => marksOf(bench, r));
    for (const [block, { contacts }] of bench.blocks.entries())
      for (const [place, { part, pole }] of contacts.entries())
        this.setContact({ block, node: place }, plan.switches[part]?.[pole] === true);
  }

  /** at: the block, and the contact's place there. */
  setContact({ block, node: place }: MetalPlace, closed: boolean): void {
    const weight = this.bench.blocks[block]?.model.weights[place] as number;
    const state = this.states[block] as RunningBlock;
    const by = (closed ? 1 : 0) - (Math.floor(state.number / weight) % 2);
    if (by === 0) return;
    state.number += by * weight;
    state.stale = true;
  }

  /** Finds where the bench rests; false where that cannot be told from here. */
  rest(): boolean {
    return this.drive() && this.balance() && this.holds();
  }

  /** Looks of this block's LEDs in the row that has come to rest. */
  looks(block: number): Uint8Array | undefined {
    const { model, rail } = this.bench.blocks[block] as BenchBlocks['blocks'][number];
    const { judged, curve } = this.states[block] as RunningBlock;
    if (curve?.steady && judged?.cases.length === 1) return curve.looks;
    const { range, t, volts } = this.rail(rail);
    return model.looks(judged as JudgedState, range, t, volts);
  }

  /** [V] */
  volts({ block, node }: MetalPlace): number {
    if (block === GROUNDED) return 0;
    if (block <= RAILED) return this.rail(RAILED - block).volts;
    const { model, rail } = this.bench.blocks[block] as BenchBlocks['blocks'][number];
    const { t, volts } = this.rail(rail);
    const curve = (this.states[block] as RunningBlock).curve as BlockCurve;
    const place = model.places[node] as number;
    return place < 0 ? (model.voltages(curve, t, volts)[node] as number) : valueAt(curve.terms, place * TERMS, t);
  }

  private rail(r: number) {
    return (this.bench.rails[r] as BenchBlocks['rails'][number]).balance;
  }

  /** Of an input on ground or a rail. */
  private levelOn(
    figures: { readonly vil: number; readonly vih: number; readonly of?: unknown } | undefined,
    { block }: MetalPlace,
    rail: number,
  ): Level {
    const volts = block === GROUNDED ? 0 : (this.bench.rails[RAILED - block]?.volts ?? 0);
    const whole = figures?.of === undefined ? 1 : (this.bench.rails[rail]?.volts ?? 0);
    return !figures ? 'X' : volts <= figures.vil * whole ? 'L' : volts >= figures.vih * whole ? 'H' : 'X';
  }

  /** Blocks tell chips their levels and chips pull, each after those that it waits for. */
  private drive(): boolean {
    for (let i = 0; i < this.order.length; i++) {
      const { chip: k, reads } = this.order[i] as ChipTurn;
      if (!this.judgeStale(reads)) return false;
      const chip = this.chips[k] as AloneChip;
      if (chip.stale && !this.ask(k, chip)) return false;
    }
    return this.judgeStale(this.everyBlock);
  }

  private judgeStale(blocks: Int32Array): boolean {
    for (let i = 0; i < blocks.length; i++) {
      const block = blocks[i] as number;
      if ((this.states[block] as RunningBlock).stale && !this.judge(block)) return false;
    }
    return true;
  }

  private judge(block: number): boolean {
    const state = this.states[block] as RunningBlock;
    const { model, rail, inputs } = this.bench.blocks[block] as BenchBlocks['blocks'][number];
    const { number, doubts } = state;
    state.judged = model.judge(number, state.doubtful > 0 ? doubts : undefined, this.ranges[rail] as Range);
    if (!state.judged) return false;
    state.stale = false;
    const { levels } = state.judged;
    for (let i = 0; i < inputs.length; i++) {
      const { chip, input } = inputs[i] as (typeof inputs)[number];
      const reader = this.chips[chip] as AloneChip;
      if (reader.deaf[input] === 0 && putLevel(reader.levels, input, levels[i] as Level)) reader.stale = true;
    }
    return true;
  }

  private ask(k: number, chip: AloneChip): boolean {
    const { fresh } = this;
    const draws = chip.chip.mayPull?.(chip.levels, fresh);
    if (draws === undefined) return false;
    chip.stale = false;
    chip.draws = draws;
    const places = this.outputs[k] as (typeof this.outputs)[number];
    for (let o = 0; o < chip.may.length; o++) {
      const before = chip.may[o] as number;
      const after = chip.mute[o] === 1 ? 1 << OFF : (fresh[o] as number);
      if (before === after) continue;
      chip.may[o] = after;
      const { block, place, weight } = places[o] as (typeof places)[number];
      const state = this.states[block] as RunningBlock;
      state.number += weight * (pullIn(after) - pullIn(before));
      const doubt = isOne(after) ? 0 : after;
      state.doubtful += (doubt > 0 ? 1 : 0) - ((state.doubts[place] as number) > 0 ? 1 : 0);
      state.doubts[place] = doubt;
      state.stale = true;
    }
    return true;
  }

  /** Finds the voltage of each rail at which its blocks and its supply agree. */
  private balance(): boolean {
    for (let r = 0; r < this.ranges.length; r++) {
      const rail = this.rail(r);
      rail.drains = 0;
      for (let k = 0; k < this.chips.length; k++) {
        const { rail: on, draws, drains } = this.chips[k] as AloneChip;
        if (on === r && draws === 'working') rail.drains += drains.working - drains.resting;
      }
      let moves = 0;
      for (; moves < MOST_MOVES; moves++) {
        if (!this.sum(r)) {
          if (!rail.narrow()) return false;
        } else if (rail.settle()) break;
        else if (!rail.goTo(rail.volts)) return false;
      }
      if (moves === MOST_MOVES) return false;
    }
    return true;
  }

  /** Adds up what the blocks on a rail take in its present range; false if one has no curve there. */
  private sum(r: number): boolean {
    const { taken, range } = this.rail(r);
    taken.fill(0);
    for (let block = 0; block < this.states.length; block++) {
      const { model, rail } = this.bench.blocks[block] as BenchBlocks['blocks'][number];
      if (rail !== r) continue;
      const state = this.states[block] as RunningBlock;
      if (state.curveNumber !== state.number || state.range !== range) {
        state.curve = model.curve(state.number, range);
        state.curveNumber = state.number;
        state.range = range;
      }
      if (!state.curve) return false;
      const { terms } = state.curve;
      const at = terms.length - TERMS;
      for (let d = 0; d < TERMS; d++) taken[d] = (taken[d] as number) + (terms[at + d] as number);
    }
    return true;
  }

  /** Does everything read where the rails are what it was judged by? */
  private holds(): boolean {
    for (let r = 0; r < this.marks.length; r++) {
      const { volts } = this.rail(r);
      const found = this.bench.rails[r]?.volts as number;
      for (const mark of this.marks[r] as readonly number[]) if (volts > mark !== found > mark) return false;
    }
    for (let block = 0; block < this.states.length; block++) {
      const { model, rail } = this.bench.blocks[block] as BenchBlocks['blocks'][number];
      const { t, volts } = this.rail(rail);
      const { curve, judged } = this.states[block] as RunningBlock;
      if (!model.readsAs(judged as JudgedState, curve as BlockCurve, t, volts)) return false;
    }
    return true;
  }
}

/** True: it was another one. */
function putLevel(levels: { value: number; unknown: number }, input: number, level: Level): boolean {
  const { value, unknown } = levels;
  const bit = 1 << input;
  levels.value = level === 'H' ? value | bit : value & ~bit;
  levels.unknown = level === 'X' ? unknown | bit : unknown & ~bit;
  return levels.value !== value || levels.unknown !== unknown;
}

/** What an output pulls on the bench: nothing while that is unknown. */
const pullIn = (may: number): number => (may === 1 << PULL_LOW ? PULL_LOW : may === 1 << PULL_HIGH ? PULL_HIGH : OFF);
const isOne = (may: number): boolean => (may & (may - 1)) === 0;

/** Voltages of a rail at whose crossing a chip is told, or an input on the rail itself reads another level. */
const marksOf = ({ chips }: BenchBlocks, r: number): number[] =>
  chips.flatMap(({ chip: { site }, rail, inputs }) => [
    ...(rail === r ? [...site.spec.supplyMarks, site.certainFrom] : []),
    ...site.inputs.flatMap(({ figures, of }, i) => (inputs[i]?.block === RAILED - r && of === undefined ? [figures.vil, figures.vih] : [])),
  ]);
