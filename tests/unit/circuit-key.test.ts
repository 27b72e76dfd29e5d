/** One key, one circuit: benches of one key have the same voltages, and what changes a circuit changes its key. */
import { describe, expect, test } from 'vitest';
import { demoPlan } from '../../shared/demo-plans.ts';
import type { Plan } from '../../shared/plan.ts';
import { apply, type Change } from '../../sim-core/index.ts';
import { circuitKey } from '../../sim-core/run/circuit/circuit-key.ts';
import { anyChange, sameCircuit } from '../support/any-change.ts';
import { MEMORY, planOf, start } from '../support/bench.ts';

const greenhouse: Plan = { ...demoPlan('greenhouse')!, switches: { ...demoPlan('greenhouse')!.switches, PS1: [true] } };
const base = start(greenhouse, { still: true });
const { taken } = base.circuit.layout;
const keyOf = (plan: Plan): string => {
  const key = circuitKey(plan);
  if (!key.ok) throw new Error(key.failure.says);
  return key.value;
};

/** Looks of LEDs, and the voltages at all legs. */
function seen(plan: Plan) {
  const sim = start(plan, { still: true });
  const { nets, leds } = sim.readings();
  const volts = sim.circuit.layout.legs.map((leg) => nets[sim.circuit.netOf(leg).index]?.volts ?? 0);
  return { leds: leds.map((l) => `${l.led} ${l.brightness}`), volts: volts.sort((a, b) => a - b) };
}

test('what leaves the circuit what it is leaves its key, and its voltages', () => {
  const key = keyOf(greenhouse);
  const was = seen(greenhouse);
  let tried = 0;
  for (let seed = 1; seed <= 60; seed++) {
    const change = sameCircuit(greenhouse, taken, seed);
    if (!change) continue;
    const plan = apply(greenhouse, change);
    const found = circuitKey(plan);
    if (!found.ok) continue;
    tried += 1;
    expect(found.value, JSON.stringify(change)).toBe(key);
    const is = seen(plan);
    expect(is.leds).toEqual(was.leds);
    for (const [i, v] of is.volts.entries()) expect(v).toBeCloseTo(was.volts[i]!, 8);
  }
  expect(tried).toBeGreaterThan(20);
});

test('benches of one key show the same, and benches that show otherwise have another key', () => {
  const byKey = new Map<string, ReturnType<typeof seen>>([[keyOf(greenhouse), seen(greenhouse)]]);
  let apart = 0;
  for (let seed = 1; seed <= 150; seed++) {
    const plan = apply(greenhouse, anyChange(greenhouse, taken, seed));
    const key = circuitKey(plan);
    if (!key.ok) continue;
    const is = byKey.size < 40 || byKey.has(key.value) ? seen(plan) : undefined;
    const was = byKey.get(key.value);
    if (!is) continue;
    if (!was) {
      byKey.set(key.value, is);
      apart += 1;
      continue;
    }
    expect(is.leds, `seed ${seed}`).toEqual(was.leds);
  }
  expect(apart).toBeGreaterThan(20);
});

describe('another key', () => {
  const memory = planOf(`${MEMORY}\nled LED1 red from c40 to c45\nresistor R1 330 from a45 to -a35\nmemory U1 000 FF00`);
  const part = (id: string) => memory.parts.find((p) => p.id === id)!;
  const replaced = (id: string, over: object): Change => ({
    op: 'replace',
    list: 'parts',
    before: part(id),
    after: { ...part(id), ...over },
  });
  test.each<[string, Change]>([
    ['a byte', { op: 'set', field: 'memories', id: 'U1', before: memory.memories.U1, after: { '000': 'FF01' } }],
    ['a switch position', { op: 'set', field: 'switches', id: 'PS1', before: [true], after: [false] }],
    ['a value', replaced('R1', { params: { ohms: 331 } })],
    ['an LED turned round', replaced('LED1', { at: 'c45', to: 'c40' })],
    ['damage', replaced('LED1', { damaged: { by: 'current', measured: 1, limit: 0.1 } })],
    ['what outputs can give', { op: 'set', field: 'outputs', before: undefined, after: 'guaranteed' }],
    ['wires with resistance', { op: 'set', field: 'wiring', before: undefined, after: 'real' }],
    ['a voltmeter', { op: 'insert', list: 'meters', index: 0, item: { id: 'M1', measures: 'volts', at: 'a40' } }],
    ['a part more', { op: 'insert', list: 'parts', index: 0, item: { id: 'R2', kind: 'resistor', at: 'a50', to: 'a55' } }],
    ['an id', replaced('LED1', { id: 'LED2' })],
  ])('for %s', (_, change) => {
    expect(keyOf(apply(memory, change))).not.toBe(keyOf(memory));
  });

  test('for a wire in another hole of its net, only where wires have resistance', () => {
    const wire = memory.wires.find((w) => w.id === 'P4')!;
    const change: Change = { op: 'replace', list: 'wires', before: wire, after: { ...wire, to: 'j12' } };
    const moved: Change = { op: 'replace', list: 'wires', before: wire, after: { ...wire, to: 'g12' } };
    expect(circuitKey(apply(memory, change)).ok).toBe(false);
    expect(keyOf(apply(memory, moved))).toBe(keyOf(memory));
    const real: Plan = { ...memory, wiring: 'real' };
    expect(keyOf(apply(real, moved))).not.toBe(keyOf(real));
  });

  test('not for names, colours, notes, the wanted table, how bytes are divided into rows, or the order of the file', () => {
    const other: Plan = {
      ...memory,
      title: 'Another',
      notes: ['a note'],
      parts: memory.parts.map((p) => ({ ...p, label: 'x' })).reverse(),
      wires: memory.wires.map((w) => ({ ...w, colour: 'violet' })).reverse(),
      memories: { U1: { '001': '00', '000': 'FF' } },
    };
    expect(keyOf(other)).toBe(keyOf(memory));
  });
});
