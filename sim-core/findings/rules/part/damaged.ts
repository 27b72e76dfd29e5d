/** A part that an overload has damaged, or burnt at some of its pins, until it is replaced. */
import { toPart, toPin } from '../../refs.ts';
import { defineRule } from '../../rule.ts';

export const partDamaged = defineRule({
  code: 'part/damaged',
  severity: 'fault',
  reads: 'wiring',
  look: (circuit) =>
    [...circuit.placed.values()].flatMap((p) => {
      const { damaged } = p.part;
      if (!damaged) return [];
      const { pins = [], ...data } = damaged;
      const names = p.kind.pins(p.params).map((pin) => pin.name);
      const burnt = pins.flatMap((name) => p.legs.filter((_, i) => names[i] === name).map(toPin));
      return [{ at: [toPart(p), ...burnt], data: { ...data, left: p.kind.wireDamaged ? 'conducts' : 'open' } }];
    }),
  bad: {
    points: 'U1',
    bench: 'B1 board-63\nPS1 bench-supply volts=9\nPS1 hands 1\nU1 octal-buffer e20\nWM wire PS1.- a29\nWP wire PS1.+ j20',
    // 9 V on a supply pin that bears 7 V
    waits: 10,
  },
  good: { bench: 'B1 board-30\nPS1 bench-supply\nPS1 hands 1\nW1 wire PS1.+ a1\nW2 wire PS1.- a9\nR1 resistor b1 b9 ohms=330' },
});
