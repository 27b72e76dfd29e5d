/** A part that an overload has damaged: it joins nothing any more, until it is replaced. */
import { toPart } from '../refs.ts';
import { defineRule } from '../rule.ts';

export const partDamaged = defineRule({
  code: 'part/damaged',
  severity: 'broken',
  reads: 'wiring',
  look: (circuit) =>
    [...circuit.placed.values()].flatMap((p) => (p.part.damaged ? [{ at: [toPart(p)], data: { ...p.part.damaged } }] : [])),
  bad: { none: 'Damage takes time, and no bench begins with it; tests/unit/damage.test.ts lets it come.' },
  good: { bench: 'B1 board-30\nPS1 bench-supply\nPS1 hands 1\nW1 lead PS1.+ a1\nW2 lead PS1.- a9\nR1 resistor b1 b9 ohms=330' },
});
