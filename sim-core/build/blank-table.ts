/** A table of so many inputs and outputs in which nothing is asked for yet. */
import { done, failed, type Outcome } from '../../shared/outcome.ts';
import type { PlanWanted } from '../../shared/plan.ts';

/** Inputs and outputs that a plan's table takes. */
const MOST = 16;

/** Pins that the lines can lie on, in order: `U1.A0` … */
interface TablePins {
  readonly inputs: readonly string[];
  readonly outputs: readonly string[];
}

const numbered = (chip: string, letter: string, count: number): string[] =>
  Array.from({ length: count }, (_, i) => `${chip}.${letter}${i}`);

/** Pins of the memories that a bench without any may get. */
export const PINS_TO_COME: TablePins = {
  inputs: numbered('U1', 'A', MOST),
  outputs: [...numbered('U1', 'D', 8), ...numbered('U2', 'D', 8)],
};

/** Every cell is free; lines are named after their pins. Fails with `table/does-not-fit`: too few, too many, or more than there are pins. */
export function blankTable(inputs: number, outputs: number, pins: TablePins = PINS_TO_COME): Outcome<PlanWanted> {
  for (const [count, what, there] of [
    [inputs, 'inputs', pins.inputs.length],
    [outputs, 'outputs', pins.outputs.length],
  ] as const) {
    const most = Math.min(MOST, there);
    if (!Number.isInteger(count) || count < 1 || count > most)
      return failed('table/does-not-fit', what, `A table here has 1 to ${most} ${what}, not ${count}.`);
  }
  const taken = new Set<string>();
  const line = (pin: string) => {
    const own = pin.slice(pin.indexOf('.') + 1);
    const name = taken.has(own) ? pin.replace('.', ' ') : own;
    taken.add(name);
    return { name, pin };
  };
  const rows = Array.from({ length: 2 ** inputs }, () => 0);
  return done({
    inputs: pins.inputs.slice(0, inputs).map(line),
    outputs: pins.outputs.slice(0, outputs).map(line),
    rules: [],
    rows,
    dontCare: rows.map(() => 2 ** outputs - 1),
  });
}
