/** What the LEDs of a bench show when its input switches go through all rows, and where two benches differ. */
import { done, type Outcome } from '../../shared/outcome.ts';
import type { Plan } from '../../shared/plan.ts';
import { buildCircuit } from '../run/circuit/circuit.ts';
import { switchedOn } from '../run/circuit/switch-settings.ts';
import { BRIGHTNESSES } from '../run/readout/readings.ts';
import { RowWalker } from '../run/row-walk.ts';
import { simulate } from '../run/simulation.ts';
import { type SwitchedInput, switchedInputs } from '../run/switched-inputs.ts';

/** By LED, then by row: 1 lit, 0 dark, −1 neither. */
export type ShownRows = ReadonlyMap<string, Int8Array>;

const STILL = { still: true, bounce: false } as const;

const LOOKS = BRIGHTNESSES.map((b) => (b === 'dark' ? 0 : b === 'lit' || b === 'overdriven' ? 1 : -1));

/** A bench that shows what it is meant to show. */
export interface MeantRows {
  /** with a supply on */
  readonly plan: Plan;
  readonly inputs: readonly SwitchedInput[];
  readonly shown: ShownRows;
}

/** What the plan shows as it is, all its supplies on unless one is on already. Fails with `plan/…`. */
export function meantRows(plan: Plan): Outcome<MeantRows> {
  const circuit = buildCircuit(plan);
  if (!circuit.ok) return circuit;
  const isOn = circuit.value.supplies.some((s) => plan.switches[s.placed.part.id]?.[0]);
  const powered = isOn ? plan : switchedOn(plan, circuit.value);
  const made = simulate(powered, STILL);
  if (!made.ok) return made;
  const inputs = switchedInputs(made.value);
  const shown = shownRows(powered, inputs);
  return shown.ok ? done({ plan: powered, inputs, shown: shown.value }) : shown;
}

/** Its supply stands as the plan says. Fails with `plan/…`. */
export function shownRows(plan: Plan, inputs: readonly SwitchedInput[]): Outcome<ShownRows> {
  const made = simulate(plan, STILL);
  if (!made.ok) return made;
  const walk = new RowWalker(made.value, inputs, { part: 0, of: 1 }, false);
  const shown = walk.leds.map((led) => [led, new Int8Array(walk.rows)] as const);
  for (let row = walk.next(); row >= 0; row = walk.next())
    for (const [i, [, rows]] of shown.entries()) rows[row] = LOOKS[walk.brightnesses[i] as number] as number;
  return done(new Map(shown));
}

/** An LED that shows something else in a row than was meant. */
export interface ShownDifference {
  readonly led: string;
  readonly row: number;
  /** what was meant */
  readonly lit: boolean;
}

/** Where `is` differs from what was meant, LED by LED; an LED that is gone is dark. What was meant to be neither lit nor dark may be anything. */
export function shownDifferences(meant: ShownRows, is: ShownRows): readonly ShownDifference[] {
  return [...meant].flatMap(([led, rows]) => {
    const now = is.get(led);
    return [...rows].flatMap((look, row) => (look >= 0 && look !== (now?.[row] ?? 0) ? [{ led, row, lit: look === 1 }] : []));
  });
}

/** The bench with its input switches at this row. */
export function atRow(plan: Plan, inputs: readonly SwitchedInput[], row: number): Plan {
  const switches = { ...plan.switches };
  for (const [bit, { part, pole, highWhenClosed }] of inputs.entries()) {
    const poles = [...(switches[part] ?? [])];
    while (poles.length <= pole) poles.push(false);
    poles[pole] = (((row >> bit) & 1) === 1) === highWhenClosed;
    switches[part] = poles;
  }
  return { ...plan, switches };
}
