/** The behaviour of any chip that a logic rule describes: levels in, delays, stored bits, levels out; unknown where nobody can tell. */
import { OFF, PULL_HIGH, PULL_LOW, type Pull } from '../../devices/network.ts';
import type { Chip, ChipBench, ChipSpec, Level } from '../part.ts';
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
const pullsOf = (aim: Aim): number => DOINGS.reduce<number>((may, doing) => ((aim >> doing) & 1 ? may | (1 << pullOf(doing)) : may), 0);

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

export function startLogic(bench: ChipBench, chip: Prepared, times: LogicTimes): Chip {
  const { rule, inputs, outputs, cells, takingPin, clearPin, followers } = chip;
  const everyOutput = [...outputs.keys()];
  const { takes } = rule;
  const nobodyKnows = (): Numbers[] => (rule.cells ?? []).map((c) => ANY(c.bits));
  let numbers = nobodyKnows();
  /** before the clock left its level */
  let before = numbers;
  let clock: { from: Level; leftAt: number } = { from: 'X', leftAt: Number.NEGATIVE_INFINITY };
  const changedAt = inputs.map(() => Number.NEGATIVE_INFINITY);
  const shown: Aim[] = outputs.map(() => LET_GO);
  let alarmAt = Number.NaN;
  /** by output: when it will go where [s]; Infinity: it stays where it is */
  const dueAt = outputs.map(() => Number.POSITIVE_INFINITY);
  const dueAim: Aim[] = outputs.map(() => LET_GO);
  const bits = { value: 0, unknown: 0 };

  /** while a clock's edge is looked at: inputs that have changed after this moment count as unknown [s] */
  let unsettled = Number.POSITIVE_INFINITY;
  const seen = (input: number): Level => ((changedAt[input] as number) > unsettled ? 'X' : world.level(input));
  const next = (cell: number, from: Numbers): Numbers => {
    const table = cells[cell] as OutputTable;
    return possible(table, readBits(table, seen, bits), from);
  };

  const present = (output: number, aim: Aim) => {
    dueAt[output] = Number.POSITIVE_INFINITY;
    shown[output] = aim;
    const sure = certain(aim);
    if (sure === undefined) bench.perhaps(output, pullsOf(aim));
    else bench.drive(output, pullOf(sure));
  };
  const aimOf = (output: number): Aim => {
    if (!world.on()) return LET_GO;
    const table = outputs[output] as OutputTable;
    return possible(table, readBits(table, seen, bits), table.cell === undefined ? 0 : (numbers[table.cell] as Numbers));
  };
  const presentAll = () => {
    for (const o of outputs.keys()) present(o, aimOf(o));
  };

  /** These outputs follow after the delay; one that would be back by then never left. */
  const follow = (now: number, which: readonly number[]) => {
    for (let k = 0; k < which.length; k++) {
      const o = which[k] as number;
      const aim = aimOf(o);
      const isDue = dueAt[o] !== Number.POSITIVE_INFINITY;
      if ((isDue ? dueAim[o] : shown[o]) === aim) continue;
      if (shown[o] === aim) {
        dueAt[o] = Number.POSITIVE_INFINITY;
        continue;
      }
      const at = now + times.delay;
      dueAt[o] = at;
      dueAim[o] = aim;
      // one alarm is for all outputs that are due then
      if (alarmAt === at) continue;
      bench.alarm(at, 'outputs');
      alarmAt = at;
    }
  };

  /** Cells that take at a level, at all times, or are held at 0. */
  const takeNow = () => {
    const gate: Level = takes?.at === 'all times' ? 'H' : takes?.at === 'level' ? open(world.level(takingPin), takes.level) : 'L';
    for (let cell = 0; cell < cells.length && gate !== 'L'; cell++) {
      const had = numbers[cell] as Numbers;
      const taken = next(cell, had);
      numbers[cell] = gate === 'H' ? taken : had | taken;
    }
    if (clearPin >= 0) holdAtNothing(world.level(clearPin));
  };
  const holdAtNothing = (clear: Level) => {
    if (clear === 'H') return;
    const cleared = (all: readonly Numbers[]) => all.map((had) => (clear === 'L' ? 1 : had | 1));
    numbers = cleared(numbers);
    before = cleared(before);
  };

  const clockMoved = (to: Level, now: number) => {
    const { from, leftAt } = clock;
    if (to === 'X') {
      clock = { from, leftAt: now };
      before = [...numbers];
      bench.alarm(now + times.slowest * 1.001, 'slow edge');
      return;
    }
    const onWay = leftAt > Number.NEGATIVE_INFINITY;
    if (!onWay) before = [...numbers];
    const left = onWay ? leftAt : now;
    tick(edges(from, to, now - left, times.slowest), left - times.setup);
    clock = { from: to, leftAt: Number.NEGATIVE_INFINITY };
  };
  const tick = (count: Edges, settled: number) => {
    unsettled = settled;
    numbers = before.map((had, cell) => afterEdges(had, count, (all) => next(cell, all)));
    unsettled = Number.POSITIVE_INFINITY;
  };

  /** It has its supply anew, or no more, and knows nothing of what was before. */
  const fresh = () => {
    numbers = nobodyKnows();
    before = numbers;
    clock = { from: takingPin < 0 ? 'X' : world.level(takingPin), leftAt: Number.NEGATIVE_INFINITY };
    takeNow();
    presentAll();
  };
  const world: InputFilter = notice(
    bench,
    inputs.length,
    times.alive,
    (input, since) => {
      if (takes?.at === 'edge' && input === takingPin) clockMoved(world.level(input), since);
      else changedAt[input] = since;
      takeNow();
      follow(since, followers[input] as readonly number[]);
    },
    fresh,
  );

  return {
    begin(now) {
      world.begin(now);
      bench.draw('resting');
    },
    levelChanged: (input, _from, now) => world.changed(input, now),
    supplyCrossed: (_mark, rising, now) => world.supplyCrossed(rising, now),
    alarm(name, now) {
      if (world.alarm(name, now)) return;
      if (name === 'slow edge') {
        if (!world.on() || clock.leftAt === Number.NEGATIVE_INFINITY || now - clock.leftAt <= times.slowest) return;
        tick('any number', clock.leftAt - times.setup);
        takeNow();
        follow(now, everyOutput);
        return;
      }
      alarmAt = Number.NaN;
      for (let o = 0; o < dueAt.length; o++) if ((dueAt[o] as number) <= now) present(o, dueAim[o] as Aim);
    },
    state() {
      return { doing: !world.on() ? 'no supply' : shown.every((aim) => aim === LET_GO) ? 'off the bus' : 'working' };
    },
    contents: () => undefined,
  };
}

/** Does a latch let its data through? H: yes, L: no, X: perhaps. */
const open = (level: Level, when: 'L' | 'H'): Level => (level === 'X' ? 'X' : level === when ? 'H' : 'L');
