/** What must hold on any bench that chance puts together: it comes to rest or says why not, charge and energy are kept, and only what is on it matters. */
import { isDeepStrictEqual } from 'node:util';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Outcome } from '../../shared/outcome.ts';
import type { Plan, PlanPart } from '../../shared/plan.ts';
import { GROUND, LEAKAGE_TO_GROUND, PULL_HIGH } from '../../sim-core/devices/network.ts';
import { findingsNow, PARTS, type Simulation } from '../../sim-core/index.ts';
import type { simulate } from '../../sim-core/run/simulation.ts';
import { start } from '../support/bench.ts';
import { randomBench } from '../support/random-bench.ts';
import { randomMachine } from '../support/random-machine.ts';
import { shuffled } from '../support/shuffled.ts';
import { trial } from '../support/trial.ts';

/** Poles and buttons of a bench, moved one after the other. */
function moveAll(sim: Simulation, most: number): void {
  for (const { placed, pole, contact } of sim.circuit.contacts.slice(0, most)) {
    const part = placed.part.id;
    // what an earlier move has burnt out joins nothing any more
    if (sim.circuit.plan.parts.some((p) => p.id === part && p.damaged)) continue;
    const closed = sim.readings().switches[part]?.[pole] ?? false;
    const moved = sim.act(contact.momentary ? { do: 'press', part } : { do: 'set', part, pole, closed: !closed });
    expect(moved.ok).toBe(true);
    if (contact.momentary) sim.act({ do: 'release', part });
  }
}

const GIVEN_UP = ['bench/no-operating-point', 'bench/oscillates'];

/** At rest, or still creeping towards it, or given up with a finding that says so. */
function settles(sim: Simulation): 'rests' | 'creeps' | 'given up' {
  const readings = sim.readings();
  if (readings.unsolved || readings.restless) {
    expect(findingsNow(sim, readings).map((f) => f.code)).toEqual(
      expect.arrayContaining([expect.toSatisfy((c: string) => GIVEN_UP.includes(c))]),
    );
    return 'given up';
  }
  return sim.rest() ? 'rests' : 'creeps';
}

const parts = (plan: Plan) => plan.parts.length;
/** More parts than these make a large bench. */
const LARGE = 100;
/**
 * Parts and wires in whatever holes chance gives them, or parts of the whole catalogue that hear each other: 17 in 20 small ones, in which most mistakes
 * show, 2 of some size, and 1 as large as benches are.
 */
const anyBench = fc.oneof(
  { weight: 17, arbitrary: fc.oneof(randomBench(1, 40), randomMachine(1, 3)) },
  { weight: 2, arbitrary: fc.oneof(randomBench(40, 120), randomMachine(4, 10)) },
  { weight: 1, arbitrary: fc.oneof(randomBench(250, 500), randomMachine(16, 24)) },
);
/** Contacts bounce in one bench out of so many; in the others they move once. */
const BOUNCE_IN = 4;

test('benches that chance puts together have every part of the catalogue', () => {
  const drawn = fc.sample(randomMachine(10, 24), { seed: 1, numRuns: 100 });
  const kinds = new Set(drawn.flatMap((plan) => plan.parts.map((part) => part.kind)));
  expect(PARTS.map((kind) => kind.id).filter((id) => !kinds.has(id))).toEqual([]);
});

describe('any bench of up to 200 parts', () => {
  trial(
    'shows the same to the last bit in any order of its file, keeps Kirchhoff’s current law at rest, and rests, goes on, or has a finding that says why not',
    { cases: anyBench, sample: 14, full: 5000 },
    (plan, seed) => {
      const bounce = seed % BOUNCE_IN === 0;
      const [a, b] = [start(plan, { bounce }), start(shuffled(plan, seed), { bounce })];
      const both = (does: (sim: Simulation) => void) => {
        for (const sim of [a, b]) does(sim);
        expectAlike(a, b);
      };
      expectAlike(a, b);
      const rests = settles(a) === 'rests';
      expect(settles(b) === 'rests').toBe(rests);
      expectAlike(a, b);
      // looked at where it rests, however long the way there would be
      expectKirchhoff(rests ? a : start(plan, { still: true }));
      moveAll(a, 4);
      moveAllAlike(a, b, 4);
      const kind = settles(a);
      expect(settles(b)).toBe(kind);
      expectAlike(a, b);
      expect(verdicts(b)).toEqual(verdicts(a));
      // charge that leaks away through the air takes days, and what swings or is clocked goes on: time passes there, and voltages stay voltages
      const seconds = a.pending ? 10e-6 : 0.5;
      if (kind === 'creeps') both((sim) => sim.wait(seconds));
      // a coil that is switched off has no such bound
      const most = a.circuit.coils.length > 0 ? 1e6 : 100;
      for (const net of a.readings().nets) expect(Math.abs(net.volts)).toBeLessThan(most);
      return { kind: `${kind}, ${parts(plan) > LARGE ? 'more than' : 'up to'} ${LARGE} parts`, parts: parts(plan) };
    },
  );

  trial(
    'shows the same after a wire has joined two rows that were at one voltage already',
    {
      cases: fc.tuple(
        randomBench(1, 100),
        fc.record({ upper: fc.constantFrom(470, 1000, 10_000), lower: fc.constantFrom(470, 3300, 10_000), leds: fc.boolean() }),
      ),
      sample: 10,
      full: 2000,
    },
    ([plan, { upper, lower, leds }]) => {
      // two equal dividers on a board of their own, fed from the same two terminals
      const divider = (id: string, row: number): PlanPart[] => [
        { id: `${id}U`, kind: 'resistor', at: `BX:+j${row}`, to: `BX:f${row}`, params: { ohms: upper } },
        { id: `${id}L`, kind: 'resistor', at: `BX:g${row}`, to: `BX:-j${row}`, params: { ohms: lower } },
        ...(leds ? [{ id: `${id}D`, kind: 'led', at: `BX:h${row}`, to: `BX:-j${row + 10}`, params: { colour: 'red' } } as const] : []),
      ];
      const apart: Plan = {
        ...plan,
        boards: [...plan.boards, { id: 'BX', kind: 'board-63', spot: [80, 0], splitRails: false }],
        parts: [...plan.parts, ...divider('X', 3), ...divider('Y', 7)],
        wires: [
          ...plan.wires,
          { id: 'XP', from: 'PS1.+', to: 'BX:+j1', colour: 'red' },
          { id: 'XM', from: 'PS1.-', to: 'BX:-j1', colour: 'black' },
        ],
      };
      const joined: Plan = { ...apart, wires: [...apart.wires, { id: 'XJ', from: 'BX:j3', to: 'BX:j7', colour: 'green' }] };
      const [a, b] = [start(apart, { still: true }), start(joined, { still: true })];
      const before = a.readings().nets;
      const after = b.readings().nets;
      const at = (sim: Simulation, strip: string) => sim.circuit.nets.ofStrip.get(strip)!.index;
      expect(Math.abs(before[at(a, 'BX/3f')]!.volts - before[at(a, 'BX/7f')]!.volts)).toBeLessThan(1e-12);
      for (const [strip, net] of a.circuit.nets.ofStrip) {
        const [was, is] = [before[net.index]!, after[at(b, strip)]!];
        // a net in the air is known to what the floor of the convergence test leaves through its resistance
        expect(Math.abs(is.volts - was.volts)).toBeLessThan(1e-8 + 1e-12 * was.ohms);
        if (!strip.startsWith('BX/')) expect(is.drive).toBe(was.drive);
      }
      return { kind: leds ? 'with LEDs' : 'resistors', parts: parts(plan) };
    },
  );
});

/** Kirchhoff's current law at every net: to 1e-9 of the currents that meet there and 1e-13 A, beside what the air takes. */
function expectKirchhoff(sim: Simulation): void {
  expect(sim.readings().unsolved).toBeUndefined();
  const { circuit } = sim;
  const { network, nets, netOf, nodeOfNet } = circuit;
  const x = voltages(sim);
  const sum = new Float64Array(nets.all.length);
  const through = new Float64Array(nets.all.length);
  const rounding = new Float64Array(nets.all.length);
  /** nodes inside a coil or motor that leak through the air too, at the voltage of its legs */
  const inside = new Float64Array(nets.all.length);
  const carries = (net: number, amps: number, siemens: number) => {
    sum[net]! += amps;
    through[net]! += Math.abs(amps);
    rounding[net]! += siemens;
  };
  for (const b of circuit.branches) {
    const [a, low] = b.legs;
    const z = b.whenHigh && network.pullOf(b.device) === PULL_HIGH ? b.whenHigh : low;
    const amps = network.current(b.device, x);
    // what the last digit of 5 V is worth through it
    const siemens = b.device.kind === 'conductance' ? network.conductance(b.device) : b.device.kind === 'supply' ? 10 : 1;
    carries(netOf(a).index, amps, siemens);
    carries(netOf(z).index, -amps, siemens);
    if (b.device.kind === 'coil') for (const leg of [a, z]) inside[netOf(leg).index]! += 1;
  }
  for (const [net, node] of nodeOfNet.entries()) {
    if (node === GROUND) continue;
    // a node that hangs in the air leaks 1e-12 S to ground; one between a resistor and an LED does not
    const air = LEAKAGE_TO_GROUND * Math.abs(x[node]!) * (1 + inside[net]!);
    expect(Math.abs(sum[net]!)).toBeLessThanOrEqual(1e-9 * through[net]! + 1e-13 + 1.001 * air + 16 * Number.EPSILON * 5 * rounding[net]!);
  }
}

/** What is found, by place and severity. */
const verdicts = (sim: Simulation) => new Set(findingsNow(sim).map(({ severity, key }) => `${severity} ${key}`));

function expectAlike(a: Simulation, b: Simulation): void {
  const [one, other] = [seen(a), seen(b)];
  for (const net of one.strips.values()) expect(Number.isFinite(net?.volts)).toBe(true);
  // it says where they differ, and takes long for it
  if (!isDeepStrictEqual(one, other)) expect(other).toEqual(one);
}

/** Everything that can be read, by names. */
function seen(sim: Simulation) {
  const { nets, leds, chips, supplies, switches, time, restless, unsolved } = sim.readings();
  const strips = [...sim.circuit.nets.ofStrip].map(([strip, net]) => [strip, nets[net.index]] as const);
  return {
    strips: new Map(strips.sort(([a], [b]) => (a < b ? -1 : 1))),
    leds: new Map(leds.map((l) => [l.led, l])),
    chips: new Map(chips.map((c) => [c.part, c])),
    supplies: new Map(supplies.map((s) => [s.part, s])),
    switches,
    time,
    endless: new Set(restless),
    lost: unsolved && nets[unsolved.net],
  };
}

/** Moves in b what `moveAll` moved in a, in the same order. */
function moveAllAlike(a: Simulation, b: Simulation, most: number): void {
  for (const { placed, pole, contact } of a.circuit.contacts.slice(0, most)) {
    const part = placed.part.id;
    if (contact.momentary) {
      b.act({ do: 'press', part });
      b.act({ do: 'release', part });
    } else b.act({ do: 'set', part, pole, closed: a.readings().switches[part]![pole]! });
  }
}

/** Node voltages as the readings give them, and those inside parts as the solver has them. */
function voltages(sim: Simulation): Float64Array {
  const { nets } = sim.readings();
  const x = new Float64Array(sim.circuit.network.n + 1);
  const { solver } = (sim as ReturnType<typeof simulate> extends Outcome<infer R> ? R : never).built;
  for (const { node } of sim.circuit.innerNodes) x[node] = solver.x[node]!;
  for (const [net, node] of sim.circuit.nodeOfNet.entries()) if (node !== GROUND) x[node] = nets[net]!.volts;
  return x;
}
