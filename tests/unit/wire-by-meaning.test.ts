/** Wires by what they join: which holes are chosen for a pin, a part, a rail or a row, and what is said of a name that is none. */
import { describe, expect, test } from 'vitest';
import { editContext } from '../../sim-core/document/edits/edit-context.ts';
import { freeBesideLeg, partLookup, wireBetween } from '../../sim-core/index.ts';
import { planOf } from '../support/bench.ts';

const plan = planOf(`
  board-63 B1
  board-30 B2 at @0,21
  bench-supply PS1
  wire WP red from PS1.+ to +j1
  wire WN black from PS1.- to -j1
  wire WQ black from -j50 to -a50
  eeprom-2kx8 U1 at d12
  led LED4 from f40 to e40
  resistor R3 1k from a40 to a44
  dip-switch S1 at B2:e10 with poles 2
  wire W1 green from c24 to c28`);
const made = editContext(plan, partLookup);
if (!made.ok) throw new Error(made.failure.says);
const context = made.value;
const ends = (from: string, to: string) => {
  const wire = wireBetween(context, from, to, 'green');
  return wire.ok ? [wire.value.item.from, wire.value.item.to] : wire.failure.says;
};

describe('a wire', () => {
  test('from a pin to an LED ends in free holes of their strips, near each other and under no part', () => {
    // pin 9 (D0) is in d20, LED4's anode in f40; e20 is under the memory
    expect(ends('U1.9', 'LED4')).toEqual(['c20', 'g40']);
  });

  test('to a part goes to the leg that nothing is connected to', () => {
    // R3's leg in a40 shares its strip with the LED's cathode
    expect((ends('a30', 'R3') as string[])[1]).toMatch(/^[b-e]44$/);
    expect(ends('a30', 'U1')).toBe('U1 has 24 pins: name one, such as U1.1.');
  });

  test('to ground goes to the nearest hole of a rail that a supply feeds', () => {
    expect((ends('U1.12', 'GND') as string[])[1]).toMatch(/^-a\d+$/);
    expect((ends('U1.24', 'VCC') as string[])[1]).toMatch(/^\+j\d+$/);
    // the rails of B2 are fed by nothing
    expect((ends('S1.1', 'gnd') as string[])[1]).toMatch(/^-a\d+$/);
    // +a is joined to nothing: the plus rail that is fed is above
    expect((ends('a5', '+5V') as string[])[1]).toMatch(/^\+j\d+$/);
  });

  test('to a rail by a row ends in the hole that is printed beside it', () => {
    // row 9 of the long board is the sixth hole of its rails; there is none beside row 8
    expect(ends('j9', '+9')).toEqual(['j9', '+j6']);
    expect(ends('a9', '-9')).toEqual(['a9', '-a6']);
    expect(ends('B2:a8', 'B2:+8')).toEqual(['B2:a8', 'B2:+a6']);
    expect(ends('a8', '+8')).toBe('The rails of B1 have no hole beside row 8. Use +7 or +9.');
  });

  test('says of a bad name what is wrong and what to write', () => {
    expect(ends('U1.99', 'GND')).toBe('There is no leg or terminal U1.99 on this bench. Write a part and a pin, such as U1.8 or PS1.+.');
    expect(ends('a99', 'GND')).toBe('a99 is off the board: B1 has rows 1 to 63.');
    expect(ends('a3', 'B9:GND')).toBe('B9:GND names board B9, which is not on this bench.');
  });
});

test('dropped on a leg, a wire ends in the nearest free hole of its strip; elsewhere in the hole itself', () => {
  expect(freeBesideLeg(context, 'd20', [20, 30])).toBe('a20');
  expect(freeBesideLeg(context, 'd20', [20, 8])).toBe('c20');
  expect(freeBesideLeg(context, 'a30', [20, 8])).toBe('a30');
});
