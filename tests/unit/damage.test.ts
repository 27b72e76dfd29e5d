/** What overload does: the part is damaged in time, says by what, and stays so until it is replaced. */
import { describe, expect, test } from 'vitest';
import { apply, plain, sayWhy, whyLed } from '../../sim-core/index.ts';
import { start } from '../support/bench.ts';

const FED = `
  board-30 B1
  bench-supply PS1
  switch PS1 set 1
  wire W1 red from PS1.+ to a1
  wire W2 black from PS1.- to a9`;
const partOf = (sim: ReturnType<typeof start>, id: string) => sim.plan().parts.find((p) => p.id === id);

describe('an LED without a resistor', () => {
  const bench = `${FED}\nled LED1 red from b1 to b9`;
  test('glows too brightly at first, and is dark for good after seconds', () => {
    const sim = start(bench);
    expect(sim.readings().leds[0]!.brightness).toBe('overdriven');
    expect(sim.pending).toBe(true);
    sim.wait(30);
    expect(sim.readings().leds.some((l) => l.brightness !== 'dark')).toBe(false);
    const { damaged } = partOf(sim, 'LED1')!;
    expect(damaged?.by).toBe('current');
    expect(damaged!.measured).toBeGreaterThan(0.03);
    expect(damaged!.limit).toBe(0.03);
    expect(sim.pending).toBe(false);
  });
  test('works again once it is replaced and has its resistor', () => {
    const sim = start(bench);
    sim.wait(30);
    const before = partOf(sim, 'LED1')!;
    const { damaged: _, ...fresh } = before;
    const plan = apply(sim.plan(), { op: 'replace', list: 'parts', before, after: { ...fresh, at: 'b5' } });
    const again = start({ ...plan, parts: [...plan.parts, { id: 'R1', kind: 'resistor', at: 'c1', to: 'c5', params: { ohms: 330 } }] });
    again.wait(1000);
    expect(again.readings().leds[0]!.brightness).toBe('lit');
  });
  test('asked why, it says what killed it', () => {
    const sim = start(bench);
    sim.wait(30);
    const answer = whyLed(sim, 'LED1');
    expect(answer.reasons.map((r) => r.code)).toEqual(['part-damaged']);
    // a new LED would be overdriven again at once, so replacing it alone is no repair
    expect(answer.proof).toBeUndefined();
    expect(plain(sayWhy(answer, sim.plan()).headline)).toBe('LED1 is dark: it is damaged and no longer conducts.');
  });
  test('once the cause is gone, a new one is offered as the repair', () => {
    const sim = start(bench);
    sim.wait(30);
    const plan = sim.plan();
    const mended = {
      ...plan,
      parts: [
        ...plan.parts.map((p) => (p.id === 'LED1' ? { ...p, at: 'b5' } : p)),
        { id: 'R1', kind: 'resistor', at: 'c1', to: 'c5', params: { ohms: 330 } },
      ],
    };
    const answer = whyLed(start(mended), 'LED1');
    expect(answer.proof?.code).toBe('replace');
    expect(answer.proof?.after.brightness).toBe('lit');
  });
  test('a moment of it does no harm', () => {
    const sim = start(bench);
    sim.wait(0.001);
    sim.act({ do: 'set', part: 'PS1', pole: 0, closed: false });
    sim.wait(1000);
    expect(partOf(sim, 'LED1')!.damaged).toBeUndefined();
  });
});

test('330 Ω straight across 5 V stays whole, 47 Ω does not: 76 mW and 0.53 W on a quarter of a watt', () => {
  // SOURCES.md: derived, 5 V² / 330 Ω = 76 mW, 5 V² / 47 Ω = 0.53 W
  const burn = (ohms: number) => {
    const sim = start(`${FED}\nresistor R1 ${ohms} from b1 to b9`);
    sim.wait(60);
    return partOf(sim, 'R1')!.damaged;
  };
  expect(burn(330)).toBeUndefined();
  const burnt = burn(47);
  expect(burnt?.by).toBe('power');
  expect(burnt!.measured).toBeCloseTo(0.53, 2);
});

test('a memory with its supply reversed pulls the supply into its limit and is damaged', () => {
  const sim = start(`
    board-63 B1
    bench-supply PS1
    eeprom-2kx8 U1 at d12
    wire W1 red from PS1.+ to a23
    wire W2 black from PS1.- to j12`);
  sim.act({ do: 'set', part: 'PS1', pole: 0, closed: true });
  expect(sim.readings().supplies[0]!.limiting).toBe(true);
  sim.wait(5);
  expect(partOf(sim, 'U1')!.damaged?.by).toBe('reverse');
});

test('too much voltage kills a memory, and says which', () => {
  const sim = start(`
    board-63 B1
    bench-supply PS1 12
    eeprom-2kx8 U1 at d12
    wire W1 black from PS1.- to a23
    wire W2 red from PS1.+ to j12
    switch PS1 set 1`);
  sim.wait(5);
  expect(partOf(sim, 'U1')!.damaged).toEqual({ by: 'supply', measured: expect.closeTo(12, 0), limit: 7 });
});
