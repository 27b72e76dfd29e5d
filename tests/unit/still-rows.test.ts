/** Rows of a variant without a circuit of its own: the same looks and voltages as by the event engine, mistake by mistake. */
import { describe, expect, test } from 'vitest';
import { demoPlan } from '../../shared/demo-plans.ts';
import type { Plan } from '../../shared/plan.ts';
import { FAULT_KINDS } from '../../sim-core/faults/catalogue.ts';
import { faultsOf } from '../../sim-core/faults/fault.ts';
import { faultBench } from '../../sim-core/faults/fault-bench.ts';
import type { Change, Simulation } from '../../sim-core/index.ts';
import { blankSignature, type ProbePoints, type SwitchRows } from '../../sim-core/run/variants/probe-points.ts';
import { signature } from '../../sim-core/run/variants/signature.ts';
import { stillSignature } from '../../sim-core/run/variants/still-signature.ts';
import { type Variant, variant } from '../../sim-core/run/variants/variant.ts';
import { built } from '../support/any-build.ts';
import { planOf, start } from '../support/bench.ts';

const switchedOn = (plan: Plan): Plan => ({
  ...plan,
  switches: { ...plan.switches, ...Object.fromEntries(plan.parts.filter((p) => p.kind === 'bench-supply').map((p) => [p.id, [true]])) },
});
const table = (inputs: number, outputs: number, show: 'leds' | 'digit' | 'bar', buffered: boolean): Plan =>
  built({
    title: 'Any table',
    inputs: Array.from({ length: inputs }, (_, i) => `in ${i}`),
    outputs: Array.from({ length: outputs }, (_, i) => ({ name: `out ${i}` })),
    rows: Array.from({ length: 2 ** inputs }, (_, r) => (Math.imul(r + 1, 2654435761) >>> 9) & (2 ** outputs - 1)),
    memory: 'eeprom-2kx8',
    byHand: false,
    show,
    buffered,
    amps: 4e-3,
  });

function asked(sim: Simulation, plan: Plan): { rows: SwitchRows; points: ProbePoints } {
  const poles = sim.circuit.contacts.filter((c) => !c.contact.momentary).map((c) => ({ part: c.placed.part.id, pole: c.pole }));
  return {
    rows: {
      poles,
      rows: Uint32Array.from({ length: 6 }, (_, r) => Math.imul(7 * r + 3, 2654435761) >>> (32 - Math.min(31, poles.length))),
    },
    points: { leds: sim.circuit.leds.map((l) => l.id), holes: plan.wires.flatMap((w) => [w.from, w.to]) },
  };
}

const variantOf = (base: Simulation, change: Change): Variant => {
  const made = variant(base, change);
  if (!made.ok) throw new Error(made.failure.says);
  return made.value;
};

/** By the event engine, whatever the other can. */
const byEvents = (of: Variant, rows: SwitchRows, points: ProbePoints) => {
  const into = blankSignature(rows, points);
  signature({ plan: of.plan, circuit: of.circuit, bench: () => of.bench(), blocks: () => undefined }, rows, points, into);
  return into;
};

/** Holes of nets that float in one of these rows, be it because an output is undefined: their voltages are what leakage and the last digits make of them. */
function floating(of: Variant, { poles, rows }: SwitchRows, { holes }: ProbePoints): ReadonlySet<string> {
  const sim = of.bench();
  const found = new Set<string>();
  for (const row of rows) {
    for (const [i, { part, pole }] of poles.entries()) sim.act({ do: 'set', part, pole, closed: ((row >>> i) & 1) === 1 });
    const { nets } = sim.readings();
    for (const hole of holes) {
      const drive = nets[sim.circuit.interconnect.atPoint(hole)?.net.index ?? -1]?.drive;
      if (drive === 'floating' || drive === 'unknown') found.add(hole);
    }
  }
  return found;
}

/** Mistakes that were seen wholly without the event engine, of all. */
const seen = { still: 0, all: 0 };

describe.each<[string, Plan, number]>([
  ['the greenhouse', switchedOn(demoPlan('greenhouse')!), 29],
  ['a bench of LEDs that the memory drives', switchedOn(table(4, 6, 'leds', false)), 37],
  ['a bench with a display', switchedOn(table(4, 7, 'digit', true)), 41],
  ['a bench with a bar', switchedOn(table(3, 8, 'bar', false)), 31],
])('on %s', (_, plan, every) => {
  test('every kind of mistake with wires and parts shows what the event engine shows, most of them without it', () => {
    const bench = faultBench(plan);
    if (!bench.ok) throw new Error(bench.failure.says);
    const base = start(plan, { still: true });
    const { rows, points } = asked(base, plan);
    const faults = faultsOf(
      bench.value,
      FAULT_KINDS.filter((k) => k.of !== 'contents'),
    ).filter((_, i) => i % every === 0);
    let still = 0;
    for (const { id, change } of faults) {
      const made = variantOf(base, change);
      const blocks = made.blocks();
      const is = blankSignature(rows, points);
      const left = blocks ? stillSignature(blocks, made.plan, rows, points, is) : [...rows.rows.keys()];
      if (left.length === 0) still += 1;
      if (left.length === rows.rows.length) continue;
      const was = byEvents(made, rows, points);
      const isHere = (_: unknown, i: number) => !left.includes(Math.floor(i / points.leds.length));
      expect([...is.leds].filter(isHere), id).toEqual([...was.leds].filter(isHere));
      const loose = floating(made, rows, points);
      for (const [i, volts] of was.volts.entries()) {
        const hole = points.holes[i % points.holes.length]!;
        if (left.includes(Math.floor(i / points.holes.length))) continue;
        if (Number.isNaN(volts)) expect(is.volts[i], id).toBeNaN();
        else if (!loose.has(hole)) expect(Math.abs(is.volts[i]! - volts), `${id} at ${hole}`).toBeLessThan(1e-7);
      }
    }
    expect(faults.length).toBeGreaterThan(9);
    seen.still += still;
    seen.all += faults.length;
    expect(still / faults.length).toBeGreaterThan(0.5);
  });

  test('a byte is another one without a circuit, and what is asked twice is the same to the bit', () => {
    const base = start(plan, { still: true });
    const { rows, points } = asked(base, plan);
    const [id = ''] = Object.keys(plan.memories);
    const change: Change = { op: 'set', field: 'memories', id, before: plan.memories[id], after: { '000': '5A'.repeat(64) } };
    const [once, again] = [blankSignature(rows, points), blankSignature(rows, points)];
    const first = variantOf(base, change);
    expect(stillSignature(first.blocks()!, first.plan, rows, points, once)).toEqual([]);
    const others = [...plan.wires.entries()].slice(0, 8);
    for (const [index, item] of others) signature(variantOf(base, { op: 'remove', list: 'wires', item, index }), rows, points, again);
    const second = variantOf(base, change);
    expect(stillSignature(second.blocks()!, second.plan, rows, points, again)).toEqual([]);
    expect(again).toEqual(once);
    const was = byEvents(second, rows, points);
    expect(again.leds).toEqual(was.leds);
  });
});

test.each([
  ['a register', 'octal-register U9 HCT at e50\nwire X1 red from j50 to +j48\nwire X2 black from a59 to -a49'],
  ['a transistor', 'npn-transistor Q1 at b50'],
  ['two supplies on one rail', 'bench-supply PS2\nswitch PS2 set 1\nwire X1 red from PS2.+ to +j48\nwire X2 black from PS2.- to -j48'],
  ['a chip that its input feeds', 'hex-inverter U9 HC at e10\nwire X1 black from -j3 to a16\nwire X2 red from +j4 to a10'],
  [
    'a pole that shorts its supply',
    'dip-switch S9 at e30 with poles 1\nswitch S9 set 1\nwire X1 red from +j30 to j30\nwire X2 black from -j31 to a30',
  ],
  ['a coil', 'inductor L9 from b50 to b55'],
])('a bench with %s is left to the event engine', (_, more) => {
  const plan = planOf(
    `board-63 B1\nbench-supply PS1\nswitch PS1 set 1\nwire W1 red from PS1.+ to +j1\nwire W2 black from PS1.- to -j1\n${more}`,
  );
  const made = variantOf(start(plan), { op: 'set', field: 'title', before: plan.title, after: 'Another' });
  const [rows, points] = [
    { poles: [], rows: Uint32Array.of(0) },
    { leds: [], holes: [] },
  ];
  const blocks = made.blocks();
  expect(blocks === undefined || stillSignature(blocks, plan, rows, points, blankSignature(rows, points)).length > 0).toBe(true);
});

const INVERTER = `
  board-63 B1
  bench-supply PS1
  switch PS1 set 1
  wire W1 red from PS1.+ to +j1
  wire W2 black from PS1.- to -j1
  wire W3 black from -j2 to -a1
  hex-inverter U1 HC at e10
  wire W5 black from -a16 to a16
  dip-switch S1 at e30 with poles 1
  wire W6 red from +j30 to j30
  wire W7 white from b30 to a10
  resistor R1 10k from c10 to -a10
  led LED1 red from b11 to b20
  resistor R2 330 from a20 to -a20
  led LED2 green from +j40 to j41
  resistor R3 330 from i41 to -j41`;

test.each([
  ['a chip without supply', INVERTER.replace('wire W6 red from +j30 to j30', 'wire W6 red from -j30 to j30')],
  ['a chip with both supply pins on ground', `${INVERTER}\nwire W4 red from -j10 to j10`],
  ['an output on the plus rail', `${INVERTER}\nwire W4 red from +j10 to j10\nwire W8 red from +a21 to a11\nwire W9 red from +j3 to +a3`],
  ['an output on ground', `${INVERTER}\nwire W4 red from +j10 to j10\nwire W8 black from -a21 to a11`],
  ['a supply that is off', `${INVERTER}\nwire W4 red from +j10 to j10`.replace('switch PS1 set 1', 'switch PS1 set 0')],
  ['a supply that a wire shorts', `${INVERTER}\nwire W4 red from +j10 to j10\nwire W8 red from +j50 to -j50`],
])('a bench with %s shows what the event engine shows, without it', (_, text) => {
  const plan = planOf(text);
  const base = start(plan, { still: true, bounce: false });
  const made = variantOf(base, { op: 'set', field: 'title', before: plan.title, after: 'Another' });
  const poles = [{ part: 'S1', pole: 0 }];
  const rows = { poles, rows: Uint32Array.of(0, 1, 0, 1, 1) };
  const points = { leds: ['LED1', 'LED2'], holes: plan.wires.flatMap((w) => [w.from, w.to]) };
  const is = blankSignature(rows, points);
  expect(stillSignature(made.blocks()!, made.plan, rows, points, is)).toEqual([]);
  const was = byEvents(made, rows, points);
  expect([...is.leds]).toEqual([...was.leds]);
  const loose = floating(made, rows, points);
  for (const [i, volts] of was.volts.entries()) {
    const hole = points.holes[i % points.holes.length]!;
    if (!loose.has(hole))
      expect(Math.abs(is.volts[i]! - volts), `row ${Math.floor(i / points.holes.length)} at ${hole}`).toBeLessThan(1e-7);
  }
});

test('of all these mistakes four in five are seen wholly without the event engine', () => {
  expect(seen.all).toBeGreaterThan(50);
  expect(seen.still / seen.all).toBeGreaterThan(0.8);
});
