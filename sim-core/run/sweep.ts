/** Every setting of the switches that set a bench's inputs, each at rest: what the memories read and what the LEDs show. */

import { done, failed, type Outcome } from '../../shared/outcome.ts';
import type { Plan } from '../../shared/plan.ts';
import type { Options, Simulation } from './api.ts';
import { buildCircuit } from './circuit/circuit.ts';
import { switchedOn } from './circuit/switch-settings.ts';
import { type RowWalk, RowWalker, type Share } from './row-walk.ts';
import type { RowReadings } from './rows/row-readings.ts';
import { simulate } from './simulation.ts';
import { type SwitchedInput, switchedInputs } from './switched-inputs.ts';

/** One setting: the address it makes, the byte read and the brightness step of each LED. */
export interface SweepRow extends RowReadings {
  /** bit i is the wanted level of input i */
  readonly row: number;
}

/** Every setting of the input switches, with what the bench showed at rest. */
export interface Sweep {
  readonly inputs: readonly SwitchedInput[];
  readonly rows: readonly SweepRow[];
}

/** Most inputs that are swept: 65 536 rows. */
const MOST_INPUTS = 16;

const WHOLE: Share = { part: 0, of: 1 };

/** A bench with every supply on and every button released, found so: a static RAM holds what the plan says. */
function foundOn(plan: Plan, options: Partial<Options>): ReturnType<typeof simulate> {
  const circuit = buildCircuit(plan, options.drive);
  return circuit.ok ? simulate(switchedOn(plan, circuit.value), { ...options, still: true }) : circuit;
}

/** The rows of the inputs that switches set, or that are meant to be set. Fails with `plan/…`, `run/no-address-switch` or `run/too-many-inputs`. */
export function walkRows(
  plan: Plan,
  options: Partial<Options> = {},
  share: Share = WHOLE,
  inputsOf: (sim: Simulation) => readonly SwitchedInput[] = switchedInputs,
): Outcome<RowWalk> {
  const built = foundOn(plan, options);
  if (!built.ok) return built;
  const sim = built.value;
  const inputs = inputsOf(sim);
  if (inputs.length === 0)
    return failed(
      'run/no-address-switch',
      'plan',
      'No switch of this bench sets an input of a memory, so there is nothing to go through. Wire a switch to an address pin.',
    );
  if (inputs.length > MOST_INPUTS)
    return failed(
      'run/too-many-inputs',
      'plan',
      `${inputs.length} inputs make more rows than can be gone through; ${MOST_INPUTS} is the most.`,
    );
  return done(new RowWalker(sim, inputs, share, options.rows === 'events'));
}

/**
 * All rows with all that can be read of memories and LEDs, in order.
 * Fails with `plan/…`, `run/no-address-switch` or `run/too-many-inputs`.
 */
export function sweep(plan: Plan, options: Partial<Options> = {}): Outcome<Sweep> {
  const begun = walkRows(plan, options);
  if (!begun.ok) return begun;
  const walk = begun.value;
  const rows: SweepRow[] = [];
  for (let row = walk.next(); row >= 0; row = walk.next()) rows[row] = { row, ...walk.readings() };
  return done({ inputs: walk.inputs, rows });
}
