/** A bench of blocks in one row after the other: what its chips pull at these levels, and the voltages at which all of it rests. Where it cannot tell, it says so. */
import type { Plan } from '../../../shared/plan.ts';
import { OFF, PULL_HIGH, PULL_LOW } from '../../devices/network.ts';
import type { Level } from '../../parts/part.ts';
import type { BlockCurve } from '../rows/block-reader.ts';
import { type Range, TERMS, valueAt } from '../rows/polynomial.ts';
import { GROUNDED, type MetalPlace, RAILED } from './assembly.ts';
import type { BenchBlock, BenchBlocks } from './bench-blocks.ts';
import type { JudgedState } from './block-model.ts';
import { askingOrder, type ChipTurn } from './chip-order.ts';
import type { RailModel } from './rail-model.ts';
import { type OutputPlace, putLevel, type StillChip, stillChips } from './still-chips.ts';

/** More moves of a rail than this have no end. */
const MOST_MOVES = 40;
/** A supply that is so near to a mark is not judged here [V]. */
const NEAR = 1e-6;

class RunningBlock {
  number = 0;
  /** by output; all 0: every pull is known */
  readonly doubts: number[];
  doubtful = 0;
  judged: JudgedState | undefined;
  curve: BlockCurve | undefined;
  /** what `curve` is of */
  curveNumber = -1;
  stale = true;
  /** not counted yet on its rail as it is now */
  isQueued = false;
  counted: BlockCurve | undefined;

  constructor(outputs: number) {
    this.doubts = new Array<number>(outputs).fill(0);
  }
}

export class StillBench {
  private readonly states: readonly RunningBlock[];
  /** by rail: where its blocks' inputs are judged */
  private readonly ranges: readonly Range[];
  /** by rail */
  private readonly blocksOn: readonly (readonly number[])[];
  /** by rail: the range in which what its blocks take is added up */
  private readonly summedIn: (Range | undefined)[];
  /** blocks that have changed since they were counted */
  private readonly queue: number[] = [];
  private readonly fresh = new Uint8Array(64);
  /** by rail: it was left somewhere else than where rows usually have it */
  private readonly far: boolean[];

  /** Undefined where some chip needs more than levels, or there is a chip that waits for itself. */
  static of(bench: BenchBlocks, plan: Plan): StillBench | undefined {
    const chips = stillChips(bench, plan);
    const order = chips && askingOrder(bench, (chip) => chips[chip]?.isAlive === true);
    if (!order || !bench.blocks.every(({ model }) => model.isCountable)) return undefined;
    // a rail is where it was left by the bench before
    return bench.rails.every(({ model }) => model.reset()) ? new StillBench(bench, chips, order, plan) : undefined;
  }

  private constructor(
    private readonly bench: BenchBlocks,
    private readonly chips: readonly StillChip[],
    private readonly order: readonly ChipTurn[],
    plan: Plan,
  ) {
    this.states = bench.blocks.map((b) => new RunningBlock(b.outputs.length));
    this.ranges = bench.rails.map(({ model }) => model.range);
    this.blocksOn = bench.rails.map((_, r) => bench.blocks.flatMap(({ rail }, block) => (rail === r ? [block] : [])));
    this.summedIn = bench.rails.map(() => undefined);
    this.far = bench.rails.map(() => false);
    for (let block = 0; block < this.states.length; block++) this.enqueue(block);
    const stand = (contacts: BenchBlock['contacts'], block: number) => {
      for (const [node, { part, pole }] of contacts.entries()) this.setContact({ block, node }, plan.switches[part]?.[pole] === true);
    };
    for (const [block, { contacts }] of bench.blocks.entries()) stand(contacts, block);
    for (const [r, { contacts }] of bench.rails.entries()) stand(contacts, RAILED - r);
  }

  /** at: the block or the rail, and the contact's place there. */
  setContact({ block, node: place }: MetalPlace, closed: boolean): void {
    if (block <= RAILED) {
      this.model(RAILED - block).setContact(place, closed);
      return;
    }
    const weight = this.bench.blocks[block]?.model.weights[place] as number;
    const state = this.states[block] as RunningBlock;
    const by = (closed ? 1 : 0) - (Math.floor(state.number / weight) % 2);
    if (by === 0) return;
    state.number += by * weight;
    this.enqueue(block);
  }

  /** Finds where the bench rests; false where that cannot be told from here. */
  rest(): boolean {
    const rests = this.drive() && this.balance() && this.holds();
    if (!rests) this.far.fill(true);
    return rests;
  }

  /** Looks of this block's LEDs in the row that has come to rest. */
  looks(block: number): Uint8Array | undefined {
    const { model, rail } = this.bench.blocks[block] as BenchBlock;
    const { judged, curve } = this.states[block] as RunningBlock;
    if (curve?.steady && judged?.cases.length === 1) return curve.looks;
    const { range, t, volts } = this.model(rail).balance;
    return model.looks(judged as JudgedState, range, t, volts);
  }

  /** [V] */
  volts({ block, node }: MetalPlace): number {
    if (block === GROUNDED) return 0;
    if (block <= RAILED) return this.model(RAILED - block).balance.volts;
    const { model, rail } = this.bench.blocks[block] as BenchBlock;
    const { t, volts } = this.model(rail).balance;
    const curve = (this.states[block] as RunningBlock).curve as BlockCurve;
    const place = model.places[node] as number;
    return place < 0 ? (model.voltages(curve, t, volts)[node] as number) : valueAt(curve.terms, place * TERMS, t);
  }

  private model(rail: number): RailModel {
    return (this.bench.rails[rail] as BenchBlocks['rails'][number]).model;
  }

  private enqueue(block: number): void {
    const state = this.states[block] as RunningBlock;
    state.stale = true;
    if (state.isQueued) return;
    state.isQueued = true;
    this.queue.push(block);
  }

  /** Blocks tell chips their levels and chips pull, each after those that it waits for. */
  private drive(): boolean {
    for (let i = 0; i < this.order.length; i++) {
      const { chip: k, reads } = this.order[i] as ChipTurn;
      if (!this.judgeStale(reads)) return false;
      const chip = this.chips[k] as StillChip;
      if (chip.stale && !this.ask(chip)) return false;
    }
    return this.judgeStale(this.queue) && this.chips.every((chip) => chip.isAlive || !chip.stale || this.ask(chip));
  }

  private judgeStale(blocks: ArrayLike<number>): boolean {
    for (let i = 0; i < blocks.length; i++) {
      const block = blocks[i] as number;
      if ((this.states[block] as RunningBlock).stale && !this.judge(block)) return false;
    }
    return true;
  }

  private judge(block: number): boolean {
    const state = this.states[block] as RunningBlock;
    const { model, rail, inputs } = this.bench.blocks[block] as BenchBlock;
    const { number, doubts } = state;
    state.judged = model.judge(number, state.doubtful > 0 ? doubts : undefined, this.ranges[rail] as Range);
    if (!state.judged) return false;
    state.stale = false;
    const { levels } = state.judged;
    for (let i = 0; i < inputs.length; i++) {
      const { chip, input } = inputs[i] as (typeof inputs)[number];
      const reader = this.chips[chip] as StillChip;
      if (reader.deaf[input] === 0 && putLevel(reader.levels, input, levels[i] as Level)) reader.stale = true;
    }
    return true;
  }

  private ask(chip: StillChip): boolean {
    const { fresh } = this;
    // one that has no supply may still draw as if it worked
    const draws = chip.isAlive || chip.works !== 0 ? chip.chip.mayPull?.(chip.levels, fresh) : 'resting';
    if (draws === undefined) return false;
    if (!chip.isAlive) fresh.fill(1 << OFF);
    chip.stale = false;
    chip.draws = draws;
    for (let o = 0; o < chip.may.length; o++) {
      const before = chip.may[o] as number;
      const after = chip.mute[o] === 1 ? 1 << OFF : (fresh[o] as number);
      if (before === after) continue;
      chip.may[o] = after;
      if (!this.pull(chip.outputs[o] as OutputPlace, before, after)) return false;
    }
    return true;
  }

  /** All that an output may pull has changed; false where that cannot be told from here. */
  private pull({ block, place, weight }: OutputPlace, before: number, after: number): boolean {
    if (block <= RAILED) {
      this.model(RAILED - block).setPull(place, pullIn(after));
      return isOne(after);
    }
    const state = this.states[block];
    if (!state) return true;
    state.number += weight * (pullIn(after) - pullIn(before));
    const doubt = isOne(after) ? 0 : after;
    state.doubtful += (doubt > 0 ? 1 : 0) - ((state.doubts[place] as number) > 0 ? 1 : 0);
    state.doubts[place] = doubt;
    this.enqueue(block);
    return true;
  }

  /** Finds the voltage of each rail at which its blocks and its supply agree. */
  private balance(): boolean {
    for (let r = 0; r < this.ranges.length; r++) if (!this.balanceRail(r)) return false;
    for (const block of this.queue) (this.states[block] as RunningBlock).isQueued = false;
    this.queue.length = 0;
    return true;
  }

  private balanceRail(r: number): boolean {
    const model = this.model(r);
    const rail = model.balance;
    rail.drains = 0;
    for (const { rail: on, draws, works } of this.chips) if (on === r && draws === 'working') rail.drains += works;
    if (this.far[r] ? !model.goHome() : !model.refresh()) return false;
    this.far[r] = false;
    for (let moves = 0; moves < MOST_MOVES; moves++) {
      if (!this.sum(r)) {
        if (!rail.narrow()) return false;
      } else if (rail.settle()) return true;
      else if (!rail.goTo(rail.volts)) return false;
    }
    return false;
  }

  /** What the blocks on a rail take in its present range, added up; false if one has no curve there. */
  private sum(r: number): boolean {
    const { taken, range } = this.model(r).balance;
    const last = this.summedIn[r];
    const isWhole = last?.middle !== range.middle || last.half !== range.half;
    const blocks = isWhole ? (this.blocksOn[r] as readonly number[]) : this.queue;
    if (isWhole) taken.fill(0);
    this.summedIn[r] = undefined;
    for (let i = 0; i < blocks.length; i++) {
      const block = blocks[i] as number;
      const { model, rail } = this.bench.blocks[block] as BenchBlock;
      if (rail !== r) continue;
      const state = this.states[block] as RunningBlock;
      if (isWhole || state.curveNumber !== state.number) {
        state.curve = model.curve(state.number, range);
        state.curveNumber = state.number;
      }
      if (!state.curve) return false;
      if (!isWhole && state.counted) add(taken, state.counted.takes, -1);
      add(taken, state.curve.takes, 1);
      state.counted = state.curve;
    }
    this.summedIn[r] = range;
    return true;
  }

  /** Does everything read where the rails are what it was judged by? */
  private holds(): boolean {
    for (const chip of this.chips) {
      if (!chip.isAlive) {
        if (this.volts(chip.supply) - this.volts(chip.ground) >= chip.wakes - NEAR) return false;
        continue;
      }
      for (const { rail, volts: mark } of chip.marks) {
        const model = this.model(rail);
        if (model.balance.volts > mark !== model.volts > mark) return false;
      }
    }
    for (let block = 0; block < this.states.length; block++) {
      const { judged, curve } = this.states[block] as RunningBlock;
      if (!(curve?.steady && curve.levels === judged?.plain) && !this.readsAs(block, curve as BlockCurve, judged as JudgedState))
        return false;
    }
    return true;
  }

  /** Do voltages say of its inputs here what they were judged by? */
  private readsAs(block: number, curve: BlockCurve, { plain }: JudgedState): boolean {
    const { model, rail, inputs } = this.bench.blocks[block] as BenchBlock;
    const { t, volts } = this.model(rail).balance;
    const here = model.levels(curve, t, volts);
    return inputs.every(({ chip: k }, i) => {
      const chip = this.chips[k] as StillChip;
      return here[i] === plain[i] || (!chip.isAlive && chip.works === 0);
    });
  }
}

function add(taken: Float64Array, takes: Float64Array, times: 1 | -1): void {
  for (let d = 0; d < TERMS; d++) taken[d] = (taken[d] as number) + times * (takes[d] as number);
}

/** What an output pulls on the bench: nothing while that is unknown. */
const pullIn = (may: number): typeof OFF | typeof PULL_LOW | typeof PULL_HIGH =>
  may === 1 << PULL_LOW ? PULL_LOW : may === 1 << PULL_HIGH ? PULL_HIGH : OFF;
const isOne = (may: number): boolean => (may & (may - 1)) === 0;
