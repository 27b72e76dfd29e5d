/** A bench of many RC oscillators, no two of one period: what it does goes on for long, and no state of it comes again. */
import type { Plan, PlanPart, PlanWire } from '../../shared/plan.ts';
import { planWith } from './plans.ts';

/** A Schmitt inverter's gates as rows of its board: input and output, three on each side. */
const FIRST = 10;
const GATES = [
  { column: 'a', other: 'b', input: 0, output: 1 },
  { column: 'a', other: 'b', input: 2, output: 3 },
  { column: 'a', other: 'b', input: 4, output: 5 },
  { column: 'j', other: 'i', input: 5, output: 6 },
  { column: 'j', other: 'i', input: 3, output: 4 },
  { column: 'j', other: 'i', input: 1, output: 2 },
] as const;

/** chips: of six oscillators each, on a board of its own; the supply is off. */
export function swingingBench(chips: number): Plan {
  const parts: PlanPart[] = [{ id: 'PS1', kind: 'bench-supply', spot: [-12, 4] }];
  const wires: PlanWire[] = [];
  const wire = (from: string, to: string) => void wires.push({ id: `W${wires.length + 1}`, from, to, colour: 'green' });
  for (let k = 1; k <= chips; k++) {
    const at = (hole: string) => `B${k}:${hole}`;
    parts.push({ id: `U${k}`, kind: 'schmitt-inverter', at: at(`e${FIRST}`) });
    const plus = k === 1 ? 'PS1.+' : `B${k - 1}:+j50`;
    const minus = k === 1 ? 'PS1.-' : `B${k - 1}:-a50`;
    wire(plus, at('+j1'));
    wire(minus, at('-a1'));
    wire(at('-a2'), at('-j1'));
    wire(at('+j2'), at(`j${FIRST}`));
    wire(at('-a3'), at(`a${FIRST + 6}`));
    for (const [g, { column, other, input, output }] of GATES.entries()) {
      const ohms = 10_000 + 100 * (GATES.length * (k - 1) + g);
      parts.push({
        id: `R${k}${g}`,
        kind: 'resistor',
        at: at(`${column}${FIRST + input}`),
        to: at(`${column}${FIRST + output}`),
        params: { ohms },
      });
      parts.push({
        id: `C${k}${g}`,
        kind: 'capacitor',
        at: at(`${other}${FIRST + input}`),
        to: at(`-${column}${10 + g}`),
        params: { farads: 10e-9 },
      });
    }
  }
  return planWith({
    title: 'Oscillators without end',
    boards: Array.from({ length: chips }, (_, b) => ({
      id: `B${b + 1}`,
      kind: 'board-63',
      spot: [70 * (b % 4), 24 * Math.floor(b / 4)],
      splitRails: false,
    })),
    parts,
    wires,
    switches: { PS1: [false] },
  });
}
