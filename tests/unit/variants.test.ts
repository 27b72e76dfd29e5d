/** A changed bench beside its base: the same as one simulated by itself, and the base stays what it was, to the bit. */
import { describe, expect, test } from 'vitest';
import { demoPlan } from '../../shared/demo-plans.ts';
import type { Plan } from '../../shared/plan.ts';
import { apply, type Simulation, simulate } from '../../sim-core/index.ts';
import { blankSignature, NO_LED, type ProbePoints, type SwitchRows } from '../../sim-core/run/variants/probe-points.ts';
import { signature } from '../../sim-core/run/variants/signature.ts';
import { type Variant, variant } from '../../sim-core/run/variants/variant.ts';
import { anyChange } from '../support/any-change.ts';
import { planOf, start } from '../support/bench.ts';

const running = (plan: Plan): Plan => ({
  ...plan,
  switches: { ...plan.switches, ...Object.fromEntries(plan.parts.filter((p) => p.kind === 'bench-supply').map((p) => [p.id, [true]])) },
});
const greenhouse = running(demoPlan('greenhouse')!);

/** Every pole of its DIP switches in some settings; all LEDs, and a hole of every net. */
function everything(sim: Simulation, plan: Plan): { rows: SwitchRows; points: ProbePoints } {
  const poles = sim.circuit.contacts.filter((c) => !c.contact.momentary).map((c) => ({ part: c.placed.part.id, pole: c.pole }));
  return {
    rows: { poles, rows: Uint32Array.from({ length: 12 }, (_, r) => Math.imul(r, 2654435761) >>> (32 - Math.min(poles.length, 31))) },
    points: { leds: sim.circuit.leds.map((l) => l.id), holes: plan.wires.flatMap((w) => [w.from, w.to]) },
  };
}

/** The same by hand: every pole set, one after the other, and all readings taken. */
function byHand(plan: Plan, { poles, rows }: SwitchRows, { leds, holes }: ProbePoints) {
  const sim = start(plan, { still: true, bounce: false });
  const looks: string[] = [];
  const volts: number[] = [];
  for (const row of rows) {
    for (const [i, { part, pole }] of poles.entries()) sim.act({ do: 'set', part, pole, closed: ((row >>> i) & 1) === 1 });
    const { leds: seen, nets } = sim.readings();
    looks.push(...leds.map((id) => seen.find((l) => l.led === id)?.brightness ?? 'none'));
    volts.push(...holes.map((hole) => nets[sim.circuit.interconnect.atPoint(hole)?.net.index ?? -1]?.volts ?? Number.NaN));
  }
  return { looks, volts };
}

const LOOKS = ['dark', 'dim', 'lit', 'overdriven', 'unknown'];
const signed = (of: Variant, rows: SwitchRows, points: ProbePoints) => {
  const into = blankSignature(rows, points);
  signature(of, rows, points, into);
  return { looks: Array.from(into.leds, (look) => (look === NO_LED ? 'none' : LOOKS[look])), volts: [...into.volts] };
};

const everyBit = (sim: Simulation) => JSON.stringify([sim.plan(), sim.readings(), [...sim.circuit.network.state()]]);

describe('any number of variants', () => {
  test.each([1, 2, 3])('of seed %i leave the base as it was, to the bit, and each is what a bench of that plan is', (seed) => {
    const base = start(greenhouse, { still: true });
    const before = everyBit(base);
    const { rows, points } = everything(base, greenhouse);
    let built = 0;
    for (let k = 0; k < 12; k++) {
      const change = anyChange(base.plan(), base.circuit.layout.taken, 1000 * seed + k);
      const made = variant(base, change);
      const plan = apply(base.plan(), change);
      expect(made.ok).toBe(simulate(plan).ok);
      if (!made.ok) continue;
      built += 1;
      const [is, was] = [signed(made.value, rows, points), byHand(plan, rows, points)];
      expect(is.looks).toEqual(was.looks);
      for (const [i, volts] of was.volts.entries())
        if (Number.isNaN(volts)) expect(is.volts[i]).toBeNaN();
        else expect(is.volts[i]).toBeCloseTo(volts, 7);
    }
    expect(built).toBeGreaterThan(5);
    expect(everyBit(base)).toBe(before);
  });
});

describe('a variant', () => {
  test('of a plan that cannot stand is refused with the sentence that a bench of that plan is refused with', () => {
    const base = start(greenhouse);
    const wire = greenhouse.wires[0]!;
    const change = { op: 'insert', list: 'wires', item: { ...wire, id: 'W999' }, index: 0 } as const;
    expect(variant(base, change)).toEqual(simulate(apply(base.plan(), change)));
  });

  test('is made of the bench as it stands now: bytes written and switches set since it was built', () => {
    const base = start(greenhouse);
    base.act({ do: 'set', part: 'S1', pole: 1, closed: true });
    const made = variant(base, { op: 'set', field: 'title', before: greenhouse.title, after: 'Another' });
    if (!made.ok) throw new Error(made.failure.says);
    expect(made.value.plan.switches).toEqual(base.plan().switches);
    expect(
      made.value
        .bench()
        .readings()
        .leds.map((l) => l.brightness),
    ).toEqual(base.readings().leds.map((l) => l.brightness));
  });

  test('stands as its plan says after its signature was taken', () => {
    const made = variant(start(greenhouse), { op: 'set', field: 'title', before: greenhouse.title, after: 'Another' });
    if (!made.ok) throw new Error(made.failure.says);
    const before = made.value.bench().plan();
    const { rows, points } = everything(made.value.bench(), greenhouse);
    signed(made.value, rows, points);
    expect(made.value.bench().plan()).toEqual(before);
  });
});

describe('a signature', () => {
  const bench = planOf(`
    board-30 B1
    bench-supply PS1
    switch PS1 set 1
    wire W1 red from PS1.+ to a1
    wire W2 black from PS1.- to a9
    led LED1 red from b1 to c5
    resistor R1 330 from a5 to b9`);
  const same = (plan: Plan) => {
    const made = variant(start(plan), { op: 'set', field: 'title', before: plan.title, after: 'Another' });
    if (!made.ok) throw new Error(made.failure.says);
    return made.value;
  };

  test('says which LEDs and poles are not there, and reads no voltage where nothing is', () => {
    const rows = {
      poles: [
        { part: 'S7', pole: 0 },
        { part: 'PS1', pole: 0 },
      ],
      rows: Uint32Array.of(2, 0),
    };
    const points = { leds: ['LED1', 'LED2'], holes: ['a1', 'a20', 'PS1.-'] };
    const { looks, volts } = signed(same(bench), rows, points);
    expect(looks).toEqual(['lit', 'none', 'dark', 'none']);
    expect(volts[0]).toBeCloseTo(5, 1);
    expect(volts.map(Number.isNaN)).toEqual([false, true, false, false, true, false]);
    expect([volts[2], volts[5]]).toEqual([0, 0]);
    expect(Math.abs(volts[3]!)).toBeLessThan(0.1);
  });

  test('of a bench that swings says so, and what it shows is unknown', () => {
    const ring = planOf(`
      board-63 B1
      bench-supply PS1
      switch PS1 set 1
      wire W1 red from PS1.+ to +j1
      wire W2 black from PS1.- to -j1
      hex-inverter U1 HC at e10
      wire W3 red from +j2 to j10
      wire W4 black from -j3 to a16
      wire W5 white from a10 to b11
      led LED1 red from b16 to b20`);
    const rows = { poles: [], rows: Uint32Array.of(0) };
    const points = { leds: ['LED1'], holes: ['a10'] };
    const into = blankSignature(rows, points);
    expect(signature(same(ring), rows, points, into)).toBe(false);
    expect([LOOKS[into.leds[0]!], into.volts[0]]).toEqual(['unknown', Number.NaN]);
  });
});
