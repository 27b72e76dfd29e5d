/** Energy is not created: what the supply gave in a switching transient is found again as heat and in the capacitors. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Plan, PlanPart } from '../../shared/plan.ts';
import { GROUND, LEAKAGE_TO_GROUND } from '../../sim-core/devices/network.ts';
import type { Simulation } from '../../sim-core/index.ts';
import { start } from '../support/bench.ts';

/** A switch feeds row 5; from there branches of a resistor and an LED, a resistor and a capacitor, or a resistor alone, to minus or to each other. */
const charging = fc
  .array(
    fc.record({
      kind: fc.constantFrom('led', 'capacitor', 'capacitor', 'resistor', 'diode'),
      ohms: fc.constantFrom(100, 330, 1000, 4700),
      farads: fc.constantFrom(1e-9, 22e-9, 470e-9),
      colour: fc.constantFrom('red', 'green', 'blue'),
      onTop: fc.nat(5),
    }),
    { minLength: 1, maxLength: 6 },
  )
  .map((branches): Plan => {
    const parts: PlanPart[] = [
      { id: 'PS1', kind: 'bench-supply', spot: [0, 0] },
      { id: 'S1', kind: 'dip-switch', at: 'e1', params: { poles: 1 } },
    ];
    for (const [i, b] of branches.entries()) {
      // branch i: its resistor ends in row 10 + i, where what it feeds begins; some begin where an earlier branch's resistor ends
      const from = b.onTop < i ? `${'bcd'[i % 3]}${10 + b.onTop}` : `+j${3 + i}`;
      const params: PlanPart['params'] = b.kind === 'led' ? { colour: b.colour } : b.kind === 'capacitor' ? { farads: b.farads } : {};
      parts.push({ id: `R${i}`, kind: 'resistor', at: from, to: `e${10 + i}`, params: { ohms: b.ohms } });
      parts.push({
        id: `P${i}`,
        kind: b.kind,
        at: `a${10 + i}`,
        to: `-a${3 + i}`,
        params: b.kind === 'resistor' ? { ohms: 2 * b.ohms } : params,
      });
    }
    const used = new Set<string>();
    const free = parts.filter((p) => {
      const holes = [p.at, p.to].filter((h) => h !== undefined);
      if (holes.some((h) => used.has(h))) return false;
      for (const h of holes) used.add(h);
      return true;
    });
    return {
      format: 'lampwright-plan',
      version: 2,
      title: 'charging',
      boards: [{ id: 'B1', kind: 'board-30', spot: [0, 0], splitRails: false }],
      parts: free,
      wires: [
        { id: 'W1', from: 'PS1.+', to: 'a1', colour: 'red' },
        { id: 'W2', from: 'j1', to: '+j1', colour: 'red' },
        { id: 'W3', from: 'PS1.-', to: '-a1', colour: 'black' },
      ],
      memories: {},
      meters: [],
      notes: [],
      switches: { PS1: [true] },
    };
  });

/** What flows and what is stored at this moment, from the readings: given [W], turned to heat [W], in capacitors [J]. */
function powers(sim: Simulation): { given: number; heat: number; stored: number } {
  const { circuit } = sim;
  const { supplies, nets } = sim.readings();
  const x = new Float64Array(circuit.network.n + 1);
  for (const [net, node] of circuit.nodeOfNet.entries()) if (node !== GROUND) x[node] = nets[net]!.volts;
  let [heat, stored] = [0, 0];
  for (const { device, placed, legs } of circuit.branches) {
    const [a, b] = legs.map((leg) => nets[circuit.netOf(leg).index]!.volts);
    if (device.kind === 'capacitor') stored += 0.5 * Number(placed.params.farads) * (a! - b!) ** 2;
    else if (device.kind !== 'supply') heat += circuit.network.current(device, x) * (a! - b!);
  }
  return { given: supplies.reduce((sum, s) => sum + s.volts * s.amps, 0), heat, stored };
}

/** Waits that grow by 2 % each, from 0.1 ns to 10 ms, half a second in all; the trapezium rule then errs by less than 1e-4 of what flows. */
const GROWTH = 1.02;
const TOLERANCE = 1e-3;
/** What has to move by less than 5 mV goes there at once, without the way (run/physics.ts): energy of 5 V times that in every capacitor [J/F]. */
const AT_ONCE = 5e-3 * 5;

function balance(sim: Simulation) {
  let now = powers(sim);
  const before = now.stored;
  let [given, heat] = [0, 0];
  for (let wait = 1e-10; wait < 1e-2; wait *= GROWTH) {
    sim.wait(wait);
    const next = powers(sim);
    given += 0.5 * wait * (now.given + next.given);
    heat += 0.5 * wait * (now.heat + next.heat);
    now = next;
  }
  return { given, heat, stored: now.stored - before };
}

describe('in any circuit of resistors, LEDs, diodes and capacitors', () => {
  test('what the supply gives after a switch closes is what becomes heat and charge, within 0.1 %; opened again, heat comes from charge alone', () => {
    fc.assert(
      fc.property(charging, (plan) => {
        const sim = start(plan, { bounce: false });
        // and what every node loses to the air in half a second
        const leap =
          AT_ONCE * plan.parts.reduce((sum, p) => sum + Number(p.params?.farads ?? 0), 0) +
          0.6 * 25 * LEAKAGE_TO_GROUND * sim.circuit.network.n;
        sim.begin({ do: 'set', part: 'S1', pole: 0, closed: true });
        sim.wait(1e-12);
        const on = balance(sim);
        expect(on.heat).toBeGreaterThan(0);
        expect(Math.abs(on.given - on.heat - on.stored)).toBeLessThan(TOLERANCE * on.given + leap);
        sim.rest();
        sim.begin({ do: 'set', part: 'S1', pole: 0, closed: false });
        sim.wait(1e-12);
        const off = balance(sim);
        // half a second of 5 V through the open contact's 10 GΩ
        expect(off.given).toBeLessThan(0.25e-8 * 0.6);
        expect(Math.abs(off.given - off.heat - off.stored)).toBeLessThan(TOLERANCE * Math.max(off.heat, off.given) + leap);
      }),
      { numRuns: 12 },
    );
  });
});
