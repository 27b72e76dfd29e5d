/** Why a wire carries what it carries: its current, who draws it, and what runs in parallel. */
import { describe, expect, test } from 'vitest';
import { readQuestion, type Simulation } from '../../sim-core/index.ts';
import { askable, askWhy } from '../support/asked-why.ts';
import { LED_ON_D0, MEMORY, start } from '../support/bench.ts';

const ask = (sim: Simulation, text: string): string => askWhy(sim, text).join('\n');

/** 5 V on +j over W1; 1 kΩ and 2 kΩ from there to −j by W3. */
const TWO_LOADS = `
  board-63 B1
  bench-supply PS1
  switch PS1 set 1
  wire W1 red from PS1.+ to +j1
  wire W2 black from PS1.- to -j1
  wire W3 red from +j2 to a10
  resistor R1 1k from b10 to b20
  resistor R2 2k from c10 to c30
  wire W4 black from a20 to -j20
  wire W5 black from a30 to -j30`;

describe('the current of a wire', () => {
  test('is that of all legs behind it, each with the voltage and the resistance that make it', () => {
    expect(ask(start(TWO_LOADS), 'W3')).toBe(
      ['Wire W3 carries 7.5 mA from +j2 to a10.', 'R1 leg 1 takes 5 mA. 5 V across 1 kΩ', 'R2 leg 1 takes 2.5 mA. 5 V across 2 kΩ'].join(
        '\n',
      ),
    );
  });
  test('flows from its from to its to, or the other way', () => {
    expect(ask(start(TWO_LOADS.replace('from +j2 to a10', 'from a10 to +j2')), 'w3')).toMatch(
      /^Wire W3 carries 7\.5 mA from \+j2 to a10\./,
    );
  });
  test('towards the supply’s − it is what the other side gives', () => {
    expect(ask(start(TWO_LOADS), 'W5')).toBe('Wire W5 carries 2.5 mA from a30 to -j30.\nR2 leg 2 gives 2.5 mA. 5 V across 2 kΩ');
  });
  test('of two ideal wires in parallel only the sum is known', () => {
    const said = ask(start(`${TWO_LOADS}\nwire W6 red from +j5 to d10`), 'W3');
    expect(said).toMatch(/^Wire W3 and wire W6 run in parallel and carry 7\.5 mA together, from the side of \+j2 to that of a10\./);
    expect(said).toContain('R1 leg 1 takes 5 mA.');
  });
  test('with resistance in the wires each has its own, and their sum is said too', () => {
    const said = ask(start(`wiring real\n${TWO_LOADS}\nwire W6 red from +j40 to d10`), 'W3');
    const [, own = ''] = /^Wire W3 carries ([\d.]+) mA from \+j2 to a10\./.exec(said) ?? [];
    expect(Number(own)).toBeGreaterThan(3.75);
    expect(Number(own)).toBeLessThan(7.49);
    expect(said).toMatch(/Wire W3 and wire W6 run in parallel, and carry 7\.5 mA together\./);
  });
  test('round a ring of rails it names the fewest wires that share it', () => {
    const ring = `${TWO_LOADS}\nwire W7 red from +j40 to a40\nwire W8 red from b40 to d10`;
    expect(ask(start(ring), 'W3')).toMatch(/^Wire W3 and wire W[78] run in parallel and carry 7\.5 mA together/);
  });
  test('of a wire that ends where nothing is plugged in it is 0', () => {
    expect(ask(start(`${TWO_LOADS}\nwire W6 red from d10 to a50`), 'W6')).toBe(
      'Wire W6 carries 0 mA: less than 1 µA, which no bench meter would show.\nNo leg of any part is connected on the side of a50.',
    );
  });
  test('of a wire to an input it is 0 too, and the input is named', () => {
    const sim = start(
      `${MEMORY}\nwire OE black from i16 to -j16\nwire WE red from i15 to +j14\nwire A0 green from a19 to a30\nwire A1 black from b30 to -a29`,
    );
    expect(ask(sim, 'A0')).toMatch(/^Wire A0 carries 0 mA.*\nOn the side of a19 nothing takes current: U1 pin 8 \(A0\)\.$/);
  });
  test('of a wire with both ends in one row there is none', () => {
    expect(ask(start(`${TWO_LOADS}\nwire W6 red from a50 to c50`), 'W6')).toBe('Wire W6 carries nothing: both its ends are in one strip.');
  });
  test('to a memory’s supply pin is named with what the memory takes and its outputs give', () => {
    const sim = start(
      `${MEMORY}${LED_ON_D0}\nwire OE black from i16 to -j16\nwire WE red from i15 to +j14\nwire A0 black from a19 to -a18\nwire A1 black from a18 to -a17\nmemory U1 0 FF`,
    );
    expect(ask(sim, 'P4')).toMatch(/^Wire P4 carries [\d.]+ mA from \+j10 to i12\.\nU1 pin 24 \(VCC\) takes [\d.]+ mA\.$/);
  });
});

describe('what cannot be asked is told what can', () => {
  const sim = start(TWO_LOADS);
  test.each([
    ['R1', 'Resistor R1 has no why of its own. Ask about a wire (W1).'],
    ['Q7', 'Nothing on this bench is called Q7. Ask about a wire (W1).'],
    ['W3 lately please', '"why W3 lately please" is not a question that can be answered. Ask about a wire (W1).'],
  ])('why %s', (text, says) => {
    const question = readQuestion(text, askable(sim));
    expect(!question.ok && question.failure).toMatchObject({ code: 'run/nothing-to-explain', says });
  });
  test('on an empty bench', () => {
    const empty = start('board-63 B1');
    const question = readQuestion('LED1', askable(empty));
    expect(!question.ok && question.failure.says).toBe(
      'Nothing on this bench is called LED1. Nothing on this bench can be asked about yet.',
    );
  });
});
