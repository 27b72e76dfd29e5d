/** Mutants after which the program does the same, each with the reason: no test can notice them, so the report counts them apart. */
// biome-ignore-all lint/suspicious/noTemplateCurlyInString: these lines are quoted from the product
import { type Mutant, mutated } from './mutant.ts';

export interface Equivalent {
  readonly path: string;
  /** the line that it is on, and what the mutant makes of it, without the spaces at their ends */
  readonly line: string;
  readonly becomes: string;
  readonly because: string;
}

export const EQUIVALENTS: readonly Equivalent[] = [
  {
    path: 'sim-core/run/digital/event-queue.ts',
    line: 'for (let child = 2 * at + 1; child <= 2 * at + 2 && child < this.times.length; child++) if (this.before(child, least)) least = child;',
    becomes:
      'for (let child = 2 * at + 1; child <= 2 * at + 3 && child < this.times.length; child++) if (this.before(child, least)) least = child;',
    because: 'a third place looked at is below the place beside: if it is the least, the heap is in order after the exchange too',
  },
  {
    path: 'sim-core/run/digital/event-queue.ts',
    line: 'for (let child = 2 * at + 1; child <= 2 * at + 2 && child < this.times.length; child++) if (this.before(child, least)) least = child;',
    becomes:
      'for (let child = 2 * at + 0; child <= 2 * at + 2 && child < this.times.length; child++) if (this.before(child, least)) least = child;',
    because: 'one place more is looked at, in order above or beside: if it is the least, the heap is in order after the exchange too',
  },
  {
    path: 'sim-core/run/digital/event-queue.ts',
    line: 'for (let child = 2 * at + 1; child <= 2 * at + 2 && child < this.times.length; child++) if (this.before(child, least)) least = child;',
    becomes:
      'for (let child = 2 * at + 1; child <= 2 * at + 2 && child <= this.times.length; child++) if (this.before(child, least)) least = child;',
    because: 'behind the last place nothing is due, and nothing is before nothing',
  },
  {
    path: 'sim-core/run/circuit/site-builder.ts',
    line: 'const leg = placed.legs.find((l) => l.pin === pin);',
    becomes: 'const leg = placed.legs.findLast((l) => l.pin === pin);',
    because: 'the pins of a part have different numbers',
  },
  {
    path: 'sim-core/run/circuit/site-builder.ts',
    line: 'return (pins.find((p) => p.name === led.name) ?? pins.find((p) => p.pin === anode))?.name ?? led.name;',
    becomes: 'return (pins.findLast((p) => p.name === led.name) ?? pins.find((p) => p.pin === anode))?.name ?? led.name;',
    because: 'one pin alone has the name of an LED, or the number of its anode',
  },
  {
    path: 'sim-core/run/circuit/site-builder.ts',
    line: 'return (pins.find((p) => p.name === led.name) ?? pins.find((p) => p.pin === anode))?.name ?? led.name;',
    becomes: 'return (pins.find((p) => p.name === led.name) ?? pins.findLast((p) => p.pin === anode))?.name ?? led.name;',
    because: 'one pin alone has the name of an LED, or the number of its anode',
  },
  {
    path: 'sim-core/run/circuit/interconnect.ts',
    line: 'return hole ? holeSpot(hole) : plan.parts.find((p) => strip.startsWith(`${p.id}.`))?.spot;',
    becomes: 'return hole ? holeSpot(hole) : plan.parts.findLast((p) => strip.startsWith(`${p.id}.`))?.spot;',
    because: 'ids are given once',
  },
  {
    path: 'sim-core/findings/rules/chip/no-decoupling.ts',
    line: "const spec = p.kind.params.find((s) => s.type === 'number' && s.unit === 'F');",
    becomes: "const spec = p.kind.params.findLast((s) => s.type === 'number' && s.unit === 'F');",
    because: 'no part has two figures in farads',
  },
  {
    path: 'sim-core/run/analog/floating-inputs.ts',
    line: 'if (output && this.network.pullOf(output) !== OFF) return false;',
    becomes: 'if (false) return false;',
    because: 'a quick answer: an output that pulls holds its pin by far more than leakage moves',
  },
  {
    path: 'sim-core/run/analog/transient-solver.ts',
    line: 'if (!this.supply || this.another || this.minus !== GROUND || volts < 1) return;',
    becomes: 'if (!this.supply || this.another && this.minus !== GROUND || volts < 1) return;',
    because: 'only where the search for a rest begins: it changes no answer',
  },
  {
    path: 'sim-core/run/analog/transient-solver.ts',
    line: 'if (!this.supply || this.another || this.minus !== GROUND || volts < 1) return;',
    becomes: 'if (!this.supply || this.another || this.minus !== GROUND || volts <= 1) return;',
    because: 'only where the search for a rest begins: it changes no answer',
  },
  {
    path: 'sim-core/run/analog/transient-solver.ts',
    line: 'if (Math.abs(share - 1) < LEANING) for (let i = 0; i < this.n; i++) this.end[i] = share * (this.end[i] as number);',
    becomes: 'if (Math.abs(share - 1) <= LEANING) for (let i = 0; i < this.n; i++) this.end[i] = share * (this.end[i] as number);',
    because: 'only where the search for a rest begins: it changes no answer',
  },
  {
    path: 'sim-core/run/analog/transient-solver.ts',
    line: 'if (error > 1 && h > SHORTEST) {',
    becomes: 'if (error >= 1 && h > SHORTEST) {',
    because: 'an estimate of exactly the error that is allowed: the step is good either way',
  },
  {
    path: 'sim-core/run/analog/transient-solver.ts',
    line: 'else if (h === this.size || error > 0.5) this.size = Math.max(nextSize(h, Math.max(error, 1e-6)), SHORTEST);',
    becomes: 'else if (h === this.size || error >= 0.5) this.size = Math.max(nextSize(h, Math.max(error, 1e-6)), SHORTEST);',
    because: 'the length of the next step, by an estimate of exactly half of what is allowed',
  },
  {
    path: 'sim-core/run/circuit/partition.ts',
    line: 'for (let i = 0; i < rests.length; i++) if (rests[i]?.state === state) return rests[i];',
    becomes: 'for (let i = 0; i <= rests.length; i++) if (rests[i]?.state === state) return rests[i];',
    because: 'behind the last one there is none',
  },
  {
    path: 'sim-core/run/circuit/partition.ts',
    line: 'this.members[block]?.push(i);',
    becomes: 'this.members[block]?.unshift(i);',
    because: 'the order within a block is the same for all that is remembered of it',
  },
  {
    path: 'sim-core/run/digital/schedule.ts',
    line: 'if (this.taken) this.spent.push(this.taken);',
    becomes: 'if (this.taken) this.spent.unshift(this.taken);',
    because: 'spent records are all alike',
  },
  {
    path: 'sim-core/run/analog/threshold-crossings.ts',
    line: 'this.members[voltage]?.push(i);',
    becomes: 'this.members[voltage]?.unshift(i);',
    because: 'what has passed is put in order afterwards',
  },
  {
    path: 'sim-core/run/analog/threshold-crossings.ts',
    line: 'if (whole > 0 && u - (this.low[voltage] as number) * whole >= -PASSED && u - (this.high[voltage] as number) * whole <= PASSED)',
    becomes: 'if (false)',
    because: 'a quick answer for all marks of a voltage; each by itself gives the same',
  },
  {
    path: 'sim-core/run/analog/threshold-crossings.ts',
    line: '} else if (mark < most) most = mark;',
    becomes: '} else if (mark <= most) most = mark;',
    because: 'of two equal marks either is the least',
  },
  {
    path: 'sim-core/run/digital/chip-slot.ts',
    line: 'if (slot.draws === state) return;',
    becomes: 'if (false) return;',
    because: 'the same conductance set once more',
  },
  {
    path: 'sim-core/tolerance/methods.ts',
    line: 'for (let corner = 0; corner < 2 ** moving.length; corner++) {',
    becomes: 'for (let corner = 0; corner < 3 ** moving.length; corner++) {',
    because: 'the same corners are looked at again',
  },
  {
    path: 'sim-core/tolerance/experiment.ts',
    line: "const key = moved.map(([s, v]) => `${s.part}.${s.figure}=${v}`).join(' ');",
    becomes: "const key = moved.map(([s, v]) => `${s.part}.${s.figure}=${v}`).join('');",
    because: 'names begin with letters and values are numbers: keys stay apart',
  },
  {
    path: 'sim-core/parts/figures/channels.ts',
    line: 'return low(0) ? between(0, b[0], low) : 0;',
    becomes: 'return true ? between(0, b[0], low) : 0;',
    because: 'where no offset is needed, the search ends at 0 too',
  },
  {
    path: 'sim-core/run/circuit/part-overrides.ts',
    line: '...(offset > 0 ? { offset } : {}),',
    becomes: '...(offset >= 0 ? { offset } : {}),',
    because: 'an offset of 0 is none',
  },
  {
    path: 'sim-core/findings/contention.ts',
    line: 'const other = strong.find((p) => p !== o && metal.has(p.net) && p.amps * o.amps < 0);',
    becomes: 'const other = strong.find((p) => p !== o && metal.has(p.net) && p.amps * o.amps <= 0);',
    because: 'both currents are beyond FIGHT, so that their product is never 0',
  },
  {
    path: 'sim-core/run/digital/event-queue.ts',
    line: 'return a < b || (a === b && (this.turns[i] as number) < (this.turns[j] as number));',
    becomes: 'return a < b || (a === b && (this.turns[i] as number) <= (this.turns[j] as number));',
    because: 'no two have the same turn',
  },
  {
    path: 'sim-core/findings/write-log.ts',
    line: 'known.set(events, { length: events.length, latest });',
    becomes: ';',
    because: 'what is kept is kept for speed alone',
  },
  {
    path: 'sim-core/findings/table-pins.ts',
    line: 'const at = placed?.kind.pins(placed.params).findIndex((p) => p.name === name) ?? -1;',
    becomes: 'const at = placed?.kind.pins(placed.params).findIndex((p) => p.name === name) ?? -2;',
    because: 'neither place is in the list',
  },
  {
    path: 'sim-core/formats/separated.ts',
    line: 'const count = (mark: string) => first.split(mark).length - 1;',
    becomes: 'const count = (mark: string) => first.split(mark).length - 2;',
    because: 'only which of them is the largest counts',
  },
  {
    path: 'sim-core/formats/intel-hex.ts',
    line: 'const [count = 0, high = 0, low = 0, type = 0] = bytes;',
    becomes: 'const [count = 1, high = 0, low = 0, type = 0] = bytes;',
    because: 'a line with fewer bytes is refused before they are looked at',
  },
  {
    path: 'sim-core/formats/intel-hex.ts',
    line: 'const [count = 0, high = 0, low = 0, type = 0] = bytes;',
    becomes: 'const [count = 0, high = 1, low = 0, type = 0] = bytes;',
    because: 'a line with fewer bytes is refused before they are looked at',
  },
  {
    path: 'sim-core/formats/intel-hex.ts',
    line: 'const [count = 0, high = 0, low = 0, type = 0] = bytes;',
    becomes: 'const [count = 0, high = 0, low = 1, type = 0] = bytes;',
    because: 'a line with fewer bytes is refused before they are looked at',
  },
  {
    path: 'sim-core/formats/intel-hex.ts',
    line: 'const [count = 0, high = 0, low = 0, type = 0] = bytes;',
    becomes: 'const [count = 0, high = 0, low = 0, type = 1] = bytes;',
    because: 'a line with fewer bytes is refused before they are looked at',
  },
  {
    path: 'sim-core/tolerance/methods.ts',
    line: 'const sides = at.map((_, i) => Math.sign(swingOf(lines[i] as number[])) * way);',
    becomes: 'const sides = at.map((_, i) => Math.sign(swingOf(lines[i] as number[])) / way);',
    because: 'it is 1 or -1',
  },
  {
    path: 'sim-core/run/analog/threshold-crossings.ts',
    line: 'for (; at > 0 && (list[at - 1] as number) > w; at--) list[at] = list[at - 1] as number;',
    becomes: 'for (; at > 0 && (list[at - 1] as number) >= w; at--) list[at] = list[at - 1] as number;',
    because: 'no watch is found twice in one look',
  },
  {
    path: 'sim-core/run/analog/transient-solver.ts',
    line: 'this.size = Math.max(nextSize(h, Math.min(error, 1e6)), SHORTEST);',
    becomes: 'this.size = Math.max(nextSize(h, Math.min(error, 800000)), SHORTEST);',
    because: 'from an error of some 400 on, the next step is a fifth, however large the error',
  },
  {
    path: 'sim-core/run/analog/transient-solver.ts',
    line: 'const volts = this.plus === GROUND ? 0 : (this.end[this.plus] as number);',
    becomes: 'const volts = this.plus === GROUND ? 1 : (this.end[this.plus] as number);',
    because:
      'a supply whose plus is ground: its minus is not, and the next line ends there; or it is shorted, and holds nothing that could lean on it',
  },
  {
    path: 'sim-core/tolerance/methods.ts',
    line: 'const all = [nominal, low.y, high.y, ...lines.flat(), ...atCorners.flat(2)];',
    becomes: 'const all = [nominal, low.y, high.y, ...lines.flat(), ...atCorners.flat(3)];',
    because: 'numbers lie two lists deep, and none deeper',
  },
];

/** The entry that a mutant is, if it is one. `text`: of the mutant's file. */
export function equivalentOf(m: Mutant, text: string): Equivalent | undefined {
  const lineIn = (of: string) => of.split('\n')[m.line - 1]?.trim();
  const line = lineIn(text);
  return EQUIVALENTS.find((e) => e.path === m.path && e.line === line && e.becomes === lineIn(mutated(text, m)));
}
