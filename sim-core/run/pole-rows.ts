/** A bench taken through rows that named poles set, whether or not they still reach their pins: what a mistake in the wiring does is seen row by row. */
import { done, type Outcome } from '../../shared/outcome.ts';
import type { Plan } from '../../shared/plan.ts';
import { buildCircuit } from './circuit/circuit.ts';
import { switchedOn } from './circuit/switch-settings.ts';
import { type RowWalk, RowWalker, type Share } from './row-walk.ts';
import { simulate } from './simulation.ts';
import type { SwitchedInput } from './switched-inputs.ts';

/** As `walkRows`, with the switches that the caller knows. Fails with `plan/…`. */
export function walkPoles(plan: Plan, inputs: readonly SwitchedInput[], share: Share = { part: 0, of: 1 }): Outcome<RowWalk> {
  const circuit = buildCircuit(plan);
  if (!circuit.ok) return circuit;
  const built = simulate(switchedOn(plan, circuit.value), { still: true, bounce: false });
  return built.ok ? done(new RowWalker(built.value, inputs, share, false)) : built;
}
