/** Logic probes: level letters and counted pulses against what was done to the bench. */
import { expect, test } from 'vitest';
import { readPlan } from '../../shared/read-plan.ts';
import type { Circuit } from '../../sim-core/run/circuit/circuit.ts';
import { Probes } from '../../sim-core/run/readout/probes.ts';
import { LED_ON_D0, MEMORY, start, writeNetwork } from '../support/bench.ts';

/** /WE (row 15) behind the write network; A0 of the memory in row 19; row 45 is joined to nothing but one end of a resistor. */
const plan = {
  ...start(`${MEMORY}${LED_ON_D0}
  dip-switch S2 at e2 with poles 1
  wire L30 black from a2 to -a2
  wire L31 yellow from g2 to i16
  resistor R30 10k from j16 to +j12
  wire L40 black from a19 to -a19
  resistor R45 1k from a45 to a50
  switch S2 set 0
  ${writeNetwork()}`).plan(),
  meters: [
    { id: 'M1', measures: 'level' as const, at: 'h15', label: 'strobe', tag: [2, -4] as [number, number] },
    { id: 'M2', measures: 'level' as const, at: 'b19' },
    { id: 'M3', measures: 'level' as const, at: 'b45' },
  ],
};

test('a probe shows low, high and what hangs in the air', () => {
  const { probes } = start(plan).readings();
  expect(probes).toMatchObject({ M1: { level: 'H', pulses: 0 }, M2: { level: 'L', pulses: 0 }, M3: { level: 'Z', pulses: 0 } });
});

test('a pulse far too short to be seen is counted, until a hand does something else', () => {
  const sim = start(plan, { bounce: false });
  sim.wait(0.01);
  sim.act({ do: 'press', part: 'SB1' });
  expect(sim.events).toHaveLength(1);
  expect(sim.readings().probes).toMatchObject({ M1: { level: 'H', pulses: 1 }, M2: { pulses: 0 } });
  sim.act({ do: 'release', part: 'SB1' });
  expect(sim.readings().probes.M1?.pulses).toBe(0);
});

test('a probe changes nothing that matters: its 10 MΩ move the width of a write by less than a thousandth', () => {
  const pulse = (meters: typeof plan.meters) => {
    const sim = start({ ...plan, meters }, { bounce: false });
    sim.wait(0.01);
    sim.act({ do: 'press', part: 'SB1' });
    return sim.events[0]!.guaranteedLow;
  };
  // 10 MΩ beside 680 Ω
  expect(Math.abs(pulse(plan.meters) / pulse([]) - 1)).toBeLessThan(1e-3);
});

test('name and place of a tag stay in the plan', () => {
  const read = readPlan(JSON.stringify(plan));
  expect(read.ok && read.value.meters[0]).toEqual(plan.meters[0]);
});

test('half a pulse is none, on a probe that has just been put there as on one whose pulses were counted again', () => {
  const probes = new Probes();
  const at = (...volts: number[]) => {
    for (const v of volts) probes.note(Float64Array.of(v, 0));
    return probes.read([]).M1?.pulses;
  };
  const plan = { meters: [{ id: 'M1', measures: 'level', at: 'a1' }] };
  probes.attach({ plan, interconnect: { atPoint: () => ({ net: { index: 0 }, node: 0 }) } } as unknown as Circuit);
  // between the levels it is neither, and no move
  expect([at(0), at(1.4, 5), at(1.4, 0), at(5)]).toEqual([0, 0, 1, 1]);
  probes.begin();
  expect([at(0), at(5), at(0)]).toEqual([0, 1, 1]);
});
