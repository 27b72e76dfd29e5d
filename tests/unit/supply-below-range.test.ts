/** Below the supply that its sheet specifies a chip may work, and no level that it drives is certain: neither to an eye nor to another chip. */
import { expect, test } from 'vitest';
import { demoPlan } from '../../shared/demo-plans.ts';
import { memoryBench } from '../../sim-core/findings/example-benches.ts';
import { findingsNow, plain, proveTable, sayWhy, whyLed } from '../../sim-core/index.ts';
import { start } from '../support/bench.ts';

/** D0 of a memory that reads FF, with an LED; read from +, written never. */
const READING = `wire WWE from j15 to +j9
  wire WOE from j16 to -j9
  led LED1 red from c40 to c41
  resistor R1 330 from a41 to -a35
  wire L1 green from b20 to a40`;

/** on so many volts */
const fed = (volts: string, more = '') => start(memoryBench(`${READING}\n${more}`).replace('PS1 5', `PS1 ${volts}`));
const look = (sim: ReturnType<typeof fed>) => {
  const { chips, leds } = sim.readings();
  return `${chips[0]?.pins.find((p) => p.pin === '9')?.level} ${leds[0]?.brightness}`;
};
const severity = (sim: ReturnType<typeof fed>) => findingsNow(sim).find((f) => f.code === 'chip/supply-out-of-range')?.severity;

// a 5 V ± 10 % part: its sheet names 4.5 to 5.5 V; one that is off drives nothing
test.each([
  ['5', 'H lit', undefined],
  ['4.5', 'H lit', 'marginal'],
  ['4.4', 'X unknown', 'marginal'],
  ['3.3', 'X unknown', 'fault'],
  ['2.5', 'X unknown', 'fault'],
  ['1.5', 'Z dark', 'fault'],
])('on %s V a 5 V memory shows %s', (volts, shown, severe) => {
  const sim = fed(volts);
  expect(look(sim)).toBe(shown);
  expect(severity(sim)).toBe(severe);
});

test('its voltages stay what a meter would show of a typical one, and it is certain again with enough', () => {
  const sim = fed('3.3', 'meter M1 volts at a20');
  expect(sim.readings().meters.M1).toBeGreaterThan(2.5);
  const part = sim.plan().parts.find((p) => p.id === 'PS1')!;
  const edited = sim.act({ do: 'edit', change: { op: 'replace', list: 'parts', before: part, after: { ...part, params: { volts: 5 } } } });
  expect(edited.ok).toBe(true);
  expect(look(sim)).toBe('H lit');
});

test('asked why its LED is undefined, it names the supply', () => {
  const sim = fed('3.3');
  const { reasons } = whyLed(sim, 'LED1');
  expect(reasons.map((r) => r.code)).toEqual(['chip-supply-low', 'supply-set-low']);
  expect(plain(sayWhy(whyLed(sim, 'LED1'), sim.plan()).headline)).toMatch(/has less than the 4\.5 V that its data sheet specifies/);
});

/** Two HC inverters in a row on supplies of their own; the second is told what the first drives. */
const twoSupplies = (first: string) => `board-63 B1
  bench-supply PS1 ${first}
  bench-supply PS2 5
  wire P1 from PS1.+ to +j1
  wire P2 from PS1.- to -j1
  wire P3 from PS2.+ to +a1
  wire P4 from PS2.- to -a1
  wire P5 from -j2 to -a2
  hex-inverter U1 HCT at e10
  wire V1 from j10 to +j10
  wire G1 from a16 to -a16
  wire I1 from a10 to -a9
  hex-inverter U2 HC at e30
  wire V2 from j30 to +a30
  wire G2 from a36 to -a36
  wire J from a11 to a30
  switch PS1 set 1
  switch PS2 set 1`;

test('a chip that has enough itself takes nothing from it for certain', () => {
  const seen = (first: string) => {
    const { chips } = start(twoSupplies(first)).readings();
    return chips.map((c) => c.pins.find((p) => p.pin === '2')?.level).join('');
  };
  expect(seen('5')).toBe('HL');
  expect(seen('4.2')).toBe('XX');
});

test('no row of a table is proven on a supply that is too low', () => {
  const plan = demoPlan('greenhouse')!;
  const low = { ...plan, parts: plan.parts.map((p) => (p.id === 'PS1' ? { ...p, params: { ...p.params, volts: 3.3 } } : p)) };
  const right = (p: typeof plan) => {
    const proof = proveTable(p);
    return proof.ok ? `${proof.value.right}/${proof.value.rows}` : proof.failure.says;
  };
  expect(right(plan)).toBe('32/32');
  expect(right(low)).toMatch(/^0/);
});
