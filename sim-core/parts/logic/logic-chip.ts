/** The behaviour of any chip that a logic rule describes: levels in, delays, stored bits, levels out; unknown where the inputs are. */
import { OFF, PULL_HIGH, PULL_LOW, type Pull } from '../../devices/network.ts';
import type { Partly } from '../../units/hex.ts';
import type { Chip, ChipBench, ChipSpec, ChipState, Level } from '../part.ts';
import { afterEdges, type Edges, edges } from './clock.ts';
import { type InputFilter, notice } from './input-filter.ts';
import { type Doing, HIGH, LOW, type LogicRule, RELEASED } from './logic-function.ts';
import { ANY, type Bits, certain, type Numbers, type OutputTable, possible, tabulate } from './unknown-enumeration.ts';

/** All in s, but `alive` in V. */
export interface LogicTimes {
  /** from an input's level to the outputs; a level that does not last so long is not seen by them */
  readonly delay: number;
  readonly setup: number;
  /** longest that a clock's edge may take between the levels */
  readonly slowest: number;
  /** supply at which it does anything */
  readonly alive: number;
}

/** Where an output is, or is going: everything that it may do, 1 << LOW, HIGH, RELEASED for each. */
type Aim = number;
const LET_GO: Aim = 1 << RELEASED;
const DOINGS: readonly Doing[] = [LOW, HIGH, RELEASED];
const pullOf = (doing: Doing): Pull => (doing === LOW ? PULL_LOW : doing === HIGH ? PULL_HIGH : OFF);
/** By aim: what it pulls, 1 << pull for each. */
const PULLS = Array.from({ length: 1 << DOINGS.length }, (_, aim) =>
  DOINGS.reduce<number>((may, doing) => ((aim >> doing) & 1 ? may | (1 << pullOf(doing)) : may), 0),
);

export interface Prepared {
  readonly rule: LogicRule;
  readonly inputs: readonly string[];
  readonly outputs: readonly OutputTable[];
  readonly cells: readonly OutputTable[];
  readonly takingPin: number;
  readonly clearPin: number;
  /** by input: the outputs that may move with it at once */
  readonly followers: readonly (readonly number[])[];
}

/** Done once for a kind of chip: its rule as tables. inputs, outputs: as in its ChipSpec. */
export function prepare(rule: LogicRule, inputs: readonly string[]): Prepared {
  const places = (names: readonly string[]) => names.map((n) => inputs.indexOf(n));
  const cells = rule.cells ?? [];
  const cellAt = (index: number | undefined) => (index === undefined ? undefined : { index, bits: cells[index]?.bits ?? 0 });
  const outputs = rule.outputs.map((o) => tabulate(places(o.of), cellAt(o.cell), o.is));
  const all = [...outputs.keys()];
  return {
    rule,
    inputs,
    outputs,
    cells: cells.map((c, index) => tabulate(places(c.of), { index, bits: c.bits }, c.next)),
    takingPin: rule.takes && rule.takes.at !== 'all times' ? inputs.indexOf(rule.takes.pin) : -1,
    clearPin: rule.clear === undefined ? -1 : inputs.indexOf(rule.clear),
    followers: inputs.map((_, i) => (cells.length > 0 ? all : all.filter((o) => outputs[o]?.inputs.includes(i)))),
  };
}

/** ChipSpec.answers of a prepared chip. */
export function answerOf(chip: Prepared): NonNullable<ChipSpec['answers']> {
  return (output, level) => {
    const table = chip.outputs[output];
    if (!table || table.cell !== undefined) return undefined;
    const aim = certain(possible(table, readBits(table, level, { value: 0, unknown: 0 }), 0));
    return aim === undefined ? 'X' : aim === RELEASED ? 'Z' : aim === HIGH ? 'H' : 'L';
  };
}

/** The levels of a table's inputs, written into `bits`. */
function readBits(table: OutputTable, level: (input: number) => Level, bits: { value: number; unknown: number }): Bits {
  bits.value = 0;
  bits.unknown = 0;
  for (let i = 0; i < table.inputs.length; i++) {
    const l = level(table.inputs[i] as number);
    if (l === 'X') bits.unknown |= 1 << i;
    else if (l === 'H') bits.value |= 1 << i;
  }
  return bits;
}

/** The same from the levels of all inputs at once. */
function pickBits(table: OutputTable, { value, unknown }: Partly, bits: { value: number; unknown: number }): Bits {
  bits.value = 0;
  bits.unknown = 0;
  for (let i = 0; i < table.inputs.length; i++) {
    const input = table.inputs[i] as number;
    bits.value |= ((value >> input) & 1) << i;
    bits.unknown |= ((unknown >> input) & 1) << i;
  }
  return bits;
}

export class RunningLogicChip implements Chip {
  private readonly bench: ChipBench;
  private readonly times: LogicTimes;
  private readonly rule: LogicRule;
  private readonly outputs: readonly OutputTable[];
  private readonly tables: readonly OutputTable[];
  private readonly takingPin: number;
  private readonly clearPin: number;
  private readonly everyOutput: number[];
  private readonly takes: import('./logic-function.ts').Taking | undefined;
  private numbers: number[];
  /** before the clock left its level */
  private before: number[];
  private clock: { from: Level; leftAt: number } = { from: 'X', leftAt: Number.NEGATIVE_INFINITY };
  private readonly changedAt: number[];
  private readonly shown: Aim[];
  private alarmAt = Number.NaN;
  /** by output: when it will go where [s]; Infinity: it stays where it is */
  private readonly dueAt: number[];
  private readonly dueAim: Aim[];
  private readonly bits = { value: 0, unknown: 0 };
  /** while a clock's edge is looked at: inputs that have changed after this moment count as unknown [s] */
  private unsettled = Number.POSITIVE_INFINITY;
  private readonly world: InputFilter;
  readonly settled: Chip['settled'];
  readonly mayPull: Chip['mayPull'];

  constructor(bench: ChipBench, chip: Prepared, times: LogicTimes) {
    this.bench = bench;
    this.times = times;
    const { rule, inputs, outputs, cells, takingPin, clearPin, followers } = chip;
    this.rule = rule;
    this.outputs = outputs;
    this.tables = cells;
    this.takingPin = takingPin;
    this.clearPin = clearPin;
    this.everyOutput = [...this.outputs.keys()];
    const { takes } = this.rule;
    this.takes = takes;
    this.numbers = this.allUnknown();
    this.before = this.numbers;
    this.changedAt = inputs.map(() => Number.NEGATIVE_INFINITY);
    this.shown = this.outputs.map(() => LET_GO);
    this.dueAt = this.outputs.map(() => Number.POSITIVE_INFINITY);
    this.dueAim = this.outputs.map(() => LET_GO);
    // an output that shows a cell follows from more than levels
    const followsLevels = this.outputs.every(({ cell }) => cell === undefined);
    this.settled = followsLevels ? (levels, pulls) => this.settle(levels, pulls) : undefined;
    this.mayPull = followsLevels ? (levels, may) => this.may(levels, may) : undefined;
    this.world = notice(
      this.bench,
      inputs.length,
      this.times.alive,
      (input, since) => {
        if (this.takes?.at === 'edge' && input === this.takingPin) this.clockMoved(this.world.level(input), since);
        else this.changedAt[input] = since;
        this.takeNow();
        this.follow(since, followers[input] as readonly number[]);
      },
      () => this.fresh(),
    );
  }

  begin(now: number): void {
    this.world.begin(now);
    this.bench.draw('resting');
  }

  levelChanged(input: number, _from: Level, now: number): void {
    this.world.changed(input, now);
  }

  supplyCrossed(_mark: number, rising: boolean, now: number): void {
    this.world.supplyCrossed(rising, now);
  }

  alarm(name: string, now: number): void {
    if (this.world.alarm(name, now)) return;
    if (name === 'slow edge') {
      if (!this.world.on() || this.clock.leftAt === Number.NEGATIVE_INFINITY || now - this.clock.leftAt <= this.times.slowest) return;
      this.tick('any number', this.clock.leftAt - this.times.setup);
      this.takeNow();
      this.follow(now, this.everyOutput);
      return;
    }
    this.alarmAt = Number.NaN;
    for (let o = 0; o < this.dueAt.length; o++) if ((this.dueAt[o] as number) <= now) this.present(o, this.dueAim[o] as Aim);
  }

  state(): ChipState {
    return { doing: !this.world.on() ? 'no supply' : this.shown.every((aim) => aim === LET_GO) ? 'high-impedance' : 'working' };
  }

  contents(): Readonly<Record<string, string>> | undefined {
    return undefined;
  }

  private may(levels: Partly, may: Uint8Array): 'resting' {
    for (let o = 0; o < this.outputs.length; o++) {
      const table = this.outputs[o] as OutputTable;
      may[o] = PULLS[this.world.on() ? possible(table, pickBits(table, levels, this.bits), 0) : LET_GO] as number;
    }
    return 'resting';
  }

  private settle(levels: Partly, pulls: Uint8Array): 'resting' | undefined {
    if (!this.world.on()) return undefined;
    for (let o = 0; o < this.outputs.length; o++) {
      const table = this.outputs[o] as OutputTable;
      const aim = certain(possible(table, pickBits(table, levels, this.bits), 0));
      if (aim === undefined) return undefined;
      pulls[o] = pullOf(aim);
    }
    return 'resting';
  }

  private allUnknown(): Numbers[] {
    return (this.rule.cells ?? []).map((c) => ANY(c.bits));
  }

  /** An input's level as an edge finds it; a value, so that asking for it allocates nothing. */
  private readonly seen = (input: number): Level => ((this.changedAt[input] as number) > this.unsettled ? 'X' : this.world.level(input));

  private next(cell: number, from: Numbers): Numbers {
    const table = this.tables[cell] as OutputTable;
    return possible(table, readBits(table, this.seen, this.bits), from);
  }

  private present(output: number, aim: Aim): void {
    this.dueAt[output] = Number.POSITIVE_INFINITY;
    this.shown[output] = aim;
    const sure = certain(aim);
    if (sure === undefined) this.bench.perhaps(output, PULLS[aim] as number);
    else this.bench.drive(output, pullOf(sure));
  }

  private aimOf(output: number): Aim {
    if (!this.world.on()) return LET_GO;
    const table = this.outputs[output] as OutputTable;
    return possible(table, readBits(table, this.seen, this.bits), table.cell === undefined ? 0 : (this.numbers[table.cell] as Numbers));
  }

  private presentAll(): void {
    for (const o of this.outputs.keys()) this.present(o, this.aimOf(o));
  }

  /** These outputs follow after the delay; one that would be back by then never left. */
  private follow(now: number, which: readonly number[]): void {
    for (let k = 0; k < which.length; k++) {
      const o = which[k] as number;
      const aim = this.aimOf(o);
      const isDue = this.dueAt[o] !== Number.POSITIVE_INFINITY;
      if ((isDue ? this.dueAim[o] : this.shown[o]) === aim) continue;
      if (this.shown[o] === aim) {
        this.dueAt[o] = Number.POSITIVE_INFINITY;
        continue;
      }
      const at = now + this.times.delay;
      this.dueAt[o] = at;
      this.dueAim[o] = aim;
      // one alarm is for all outputs that are due then
      if (this.alarmAt === at) continue;
      this.bench.alarm(at, 'outputs');
      this.alarmAt = at;
    }
  }

  /** Cells that take at a level, at all times, or are held at 0. */
  private takeNow(): void {
    const gate: Level =
      this.takes?.at === 'all times' ? 'H' : this.takes?.at === 'level' ? open(this.world.level(this.takingPin), this.takes.level) : 'L';
    for (let cell = 0; cell < this.tables.length && gate !== 'L'; cell++) {
      const had = this.numbers[cell] as Numbers;
      const taken = this.next(cell, had);
      this.numbers[cell] = gate === 'H' ? taken : had | taken;
    }
    if (this.clearPin >= 0) this.holdAtNothing(this.world.level(this.clearPin));
  }

  private holdAtNothing(clear: Level): void {
    if (clear === 'H') return;
    const cleared = (all: readonly Numbers[]) => all.map((had) => (clear === 'L' ? 1 : had | 1));
    this.numbers = cleared(this.numbers);
    this.before = cleared(this.before);
  }

  private clockMoved(to: Level, now: number): void {
    const { from, leftAt } = this.clock;
    if (to === 'X') {
      this.clock = { from, leftAt: now };
      this.before = [...this.numbers];
      this.bench.alarm(now + this.times.slowest * 1.001, 'slow edge');
      return;
    }
    const onWay = leftAt > Number.NEGATIVE_INFINITY;
    if (!onWay) this.before = [...this.numbers];
    const left = onWay ? leftAt : now;
    this.tick(edges(from, to, now - left, this.times.slowest), left - this.times.setup);
    this.clock = { from: to, leftAt: Number.NEGATIVE_INFINITY };
  }

  private tick(count: Edges, settled: number): void {
    this.unsettled = settled;
    this.numbers = this.before.map((had, cell) => afterEdges(had, count, (all) => this.next(cell, all)));
    this.unsettled = Number.POSITIVE_INFINITY;
  }

  /** Its supply is back, or gone, and knows nothing of what was before. */
  private fresh(): void {
    this.numbers = this.allUnknown();
    this.before = this.numbers;
    this.clock = { from: this.takingPin < 0 ? 'X' : this.world.level(this.takingPin), leftAt: Number.NEGATIVE_INFINITY };
    this.takeNow();
    this.presentAll();
  }
}

/** Does a latch let its data through? H: yes, L: no, X: perhaps. */
const open = (level: Level, when: 'L' | 'H'): Level => (level === 'X' ? 'X' : level === when ? 'H' : 'L');
