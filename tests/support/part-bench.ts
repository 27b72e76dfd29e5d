/** A test bench for one part, made from its pins: a switch from every input to each rail, so that vectors can be run on it. */

import { expect } from 'vitest';
import type { Plan, PlanPart, PlanWire } from '../../shared/plan.ts';
import { type PartKind, partKind, readParams, type Simulation } from '../../sim-core/index.ts';
import type { ChipSpec, Params, Wiring } from '../../sim-core/parts/part.ts';
import type { Vector, VectorStep } from '../vectors/vector.ts';
import { start } from './bench.ts';

/** Where a pin can be switched to. */
type Side = 'low' | 'high rail' | 'second supply';
interface Pole {
  readonly part: string;
  readonly pole: number;
}
interface PartBench {
  readonly plan: Plan;
  readonly spec: ChipSpec;
  /** pin name → its switches */
  readonly poles: ReadonlyMap<string, ReadonlyMap<Side, Pole>>;
}

export function kindOf(id: string): PartKind {
  const kind = partKind(id);
  if (!kind) throw new Error(`no part ${id}`);
  return kind;
}

/** What a part says of its chip. */
export function specOf(kind: PartKind, p: Params): ChipSpec {
  let spec: ChipSpec | undefined;
  const nothing = () => {};
  const listener = new Proxy({} as Wiring, {
    get: (_, name) =>
      name === 'chip'
        ? (s: ChipSpec) => {
            spec = s;
          }
        : nothing,
  });
  kind.connect(listener, p);
  if (!spec) throw new Error(`${kind.id} has no chip`);
  return spec;
}

/** Poles of one switch, switches of one board. */
const POLES = 12;
const SWITCHES = 5;

function partBench(kind: PartKind, vector: Vector): PartBench {
  const read = readParams(kind, { id: 'U1', kind: kind.id, params: { ...vector.params } });
  if (!read.ok) throw new Error(read.failure.says);
  const pins = kind.pins(read.value);
  const spec = specOf(kind, read.value);
  const shape = kind.footprint(read.value);
  if (shape.shape !== 'rows') throw new Error(`${kind.id} has no rows of pins`);
  const half = pins.length / 2;
  const parts: PlanPart[] = [
    { id: 'U1', kind: kind.id, at: shape.span > 3 ? 'd12' : 'e12', params: { ...vector.params } },
    { id: 'PS1', kind: 'bench-supply', spot: [0, -20], params: { volts: vector.volts ?? 5 } },
    { id: 'PS2', kind: 'bench-supply', spot: [20, -20], params: { volts: vector.high ?? 12 } },
  ];
  const wires: PlanWire[] = [];
  const wire = (from: string, to: string) => wires.push({ id: `W${wires.length}`, from, to, colour: 'green' });
  const boards: Plan['boards'] = [{ id: 'B1', kind: 'board-63', spot: [0, 0], splitRails: false }];
  /** a hole of the row of this pin; `k` counts them from the outside inwards */
  const holeOf = (name: string, k: number) => {
    const i = pins.findIndex((p) => p.name === name);
    return i < half ? `${'abc'[k]}${12 + i}` : `${'jih'[k]}${12 + pins.length - 1 - i}`;
  };
  // the board's own rails: +j the supply, -j the ground, +a the second supply; one hole after the other
  const used = { '+j': 0, '-j': 0, '+a': 0 };
  const rail = (board: string, name: keyof typeof used, counts = used) => `${board}:${name}${++counts[name]}`;
  wire('PS1.+', rail('B1', '+j'));
  wire('PS1.-', rail('B1', '-j'));
  wire('PS2.-', rail('B1', '-j'));
  wire('PS2.+', rail('B1', '+a'));
  wire(holeOf(spec.supplyPin, 0), rail('B1', '+j'));
  if (spec.groundPin !== spec.supplyPin) wire(holeOf(spec.groundPin, 0), rail('B1', '-j'));

  parts.push({ id: 'C1', kind: 'capacitor', at: rail('B1', '+j'), to: rail('B1', '-j'), params: { farads: 100e-9 } });

  const poles = new Map<string, Map<Side, Pole>>();
  let next = 0;
  let counts = { ...used };
  const marked = new Set((spec.marks ?? []).map((m) => m.pin));
  const names = [...new Set([...spec.inputs, ...marked])];
  for (const name of names) {
    const sides = new Map<Side, Pole>();
    let before = holeOf(name, 0);
    for (const [side, railName] of [
      ['low', '-j'],
      ['high rail', '+j'],
      ['second supply', '+a'],
    ] as const) {
      if (side === 'second supply' && !marked.has(name)) continue;
      const place = next++;
      const board = `B${2 + Math.floor(place / (POLES * SWITCHES))}`;
      if (place % (POLES * SWITCHES) === 0) {
        boards.push({ id: board, kind: 'board-63', spot: [0, 21 * boards.length], splitRails: false });
        counts = { '+j': 0, '-j': 0, '+a': 0 };
        for (const r of ['+j', '-j', '+a'] as const) wire(rail('B1', r), rail(board, r, counts));
      }
      const part = `S${Math.floor(place / POLES)}`;
      const pole = place % POLES;
      const row = 1 + (place % (POLES * SWITCHES));
      if (pole === 0) parts.push({ id: part, kind: 'dip-switch', at: `${board}:e${row}`, params: { poles: POLES } });
      wire(before, `${board}:a${row}`);
      wire(`${board}:j${row}`, rail(board, railName, counts));
      before = `${board}:b${row}`;
      sides.set(side, { part, pole });
    }
    poles.set(name, sides);
  }
  return {
    spec,
    poles,
    plan: {
      format: 'lampwright-plan',
      version: 2,
      title: `a test bench for ${kind.title}`,
      boards,
      parts,
      wires,
      memories: vector.contents ? { U1: { ...vector.contents } } : {},
      meters: [],
      notes: [],
      switches: { PS1: [true], PS2: [true] },
    },
  };
}

/** Single pins with their levels, from pins and buses with their numbers. */
function* spread<T>(spec: ChipSpec, values: Readonly<Record<string, number | T>>): Generator<[pin: string, value: number | T]> {
  for (const [name, value] of Object.entries(values)) {
    const bus = name === 'A' ? spec.word?.address : name === 'D' ? spec.word?.data : undefined;
    if (!bus) yield [name, value];
    else for (const [bit, pin] of bus.entries()) yield [pin, typeof value === 'number' ? (value >> bit) & 1 : value];
  }
}

const SIDE: Readonly<Record<string, Side>> = { '0': 'low', '1': 'high rail', high: 'second supply' };

/** Runs one script; the list of what was seen otherwise than expected, empty if the part did what it says. */
export function runVector(kind: PartKind, vector: Vector): { readonly wrong: readonly string[]; readonly sim: Simulation } {
  const { plan, spec, poles } = partBench(kind, vector);
  const first = vector.steps[0];
  // where the switches stand at the beginning is where the first step puts them
  const switches = { ...plan.switches };
  if (first && 'set' in first)
    for (const { part, pole, closed } of moves(spec, poles, first.set)) {
      const states = switches[part] ?? Array.from({ length: POLES }, () => false);
      states[pole] = closed;
      switches[part] = states;
    }
  const sim = start({ ...plan, switches }, { bounce: false });
  return { wrong: play(kind, vector, sim, { spec, poles }, true), sim };
}

/** A script of which nothing may come out otherwise; the bench as it leaves it. */
export function mustDo(id: string, vector: Omit<Vector, 'says'>): Simulation {
  const { wrong, sim } = runVector(kindOf(id), { says: id, ...vector });
  expect(wrong).toEqual([]);
  return sim;
}

/** The same script once more, on a bench that an earlier one has left: nothing is where it should be at the beginning, so all is moved. */
export const runOn = (kind: PartKind, vector: Vector, sim: Simulation): readonly string[] =>
  play(kind, vector, sim, partBench(kind, vector), false);

/** stands: the switches stand already where the first step puts them */
function play(kind: PartKind, vector: Vector, sim: Simulation, { spec, poles }: Omit<PartBench, 'plan'>, stands: boolean): string[] {
  const wrong: string[] = [];
  for (const [i, step] of vector.steps.entries()) {
    if ('set' in step) {
      if (i > 0 || !stands) for (const move of moves(spec, poles, step.set)) must(sim.begin({ do: 'set', ...move }));
    } else if ('wait' in step) sim.wait(step.wait);
    else if ('supply' in step) must(sim.begin({ do: 'set', part: 'PS1', pole: 0, closed: step.supply === 'on' }));
    else if ('light' in step)
      must(
        sim.begin({
          do: 'light',
          part: 'U1',
          seconds: step.light,
          wattsPerCm2: step.wattsPerCm2,
          ...(step.covered ? { covered: true } : {}),
        }),
      );
    else wrong.push(...look(kind, sim, spec, step).map((w) => `${vector.says}: step ${i + 1}: ${w}`));
  }
  return wrong;
}

/** Opening comes before closing, so that no pin is ever on both rails. */
function moves(
  spec: ChipSpec,
  poles: PartBench['poles'],
  set: Extract<VectorStep, { set: unknown }>['set'],
): { part: string; pole: number; closed: boolean }[] {
  const all = [...spread<'open' | 'high'>(spec, set)].flatMap(([name, value]) => {
    const sides = poles.get(name);
    if (!sides) throw new Error(`there is no switch at a pin called ${name}`);
    const wanted = SIDE[String(value)];
    if (wanted && !sides.has(wanted)) throw new Error(`${name} has no switch to the ${wanted}`);
    return [...sides].map(([side, at]) => ({ ...at, closed: side === wanted }));
  });
  return [...all.filter((m) => !m.closed), ...all.filter((m) => m.closed)];
}

function must(outcome: { readonly ok: boolean }): void {
  if (!outcome.ok) throw new Error(JSON.stringify(outcome));
}

function look(kind: PartKind, sim: Simulation, spec: ChipSpec, step: Extract<VectorStep, { see: unknown }>): string[] {
  const reading = sim.readings().chips.find((c) => c.part === 'U1');
  const placed = sim.circuit.placed.get('U1');
  const pins = placed ? kind.pins(placed.params) : [];
  const levelOf = (name: string) => reading?.pins[pins.findIndex((p) => p.name === name)]?.level;
  return [...spread<string>(spec, step.see)].flatMap(([name, value]) => {
    const wanted = value === 0 ? 'L' : value === 1 ? 'H' : String(value);
    const is = levelOf(name);
    return is === wanted ? [] : [`${name} is ${is ?? 'not there'} and should be ${wanted}`];
  });
}
