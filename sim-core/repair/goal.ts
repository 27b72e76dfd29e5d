/** What the LEDs of a bench are to show: its table, the poles that set each input, and which LED shows which output. */
import { done, failed, type Outcome } from '../../shared/outcome.ts';
import type { Plan } from '../../shared/plan.ts';
import { namedPoles } from '../../shared/pole-names.ts';
import { ledsOfOutput } from '../findings/led-of-output.ts';
import { simulate } from '../run/simulation.ts';
import { type SwitchedInput, switchedInputs } from '../run/switched-inputs.ts';

export interface TableGoal {
  readonly wanted: NonNullable<Plan['wanted']>;
  /** in the order of the table */
  readonly inputs: readonly SwitchedInput[];
  /** by LED: the output that it shows */
  readonly outputs: ReadonlyMap<string, number>;
}

/**
 * The goal of a plan whatever is wrong with its wiring: an input is set by the pole that has its name, else by the one that sets it on the bench as it is
 * meant, or as it stands. Fails with `card/no-switch`, `plan/…` or `table/none`.
 */
export function goalOf(plan: Plan): Outcome<TableGoal> {
  const { wanted, meant } = plan;
  if (!wanted || wanted.outputs.length === 0)
    return failed('table/none', 'wanted', 'This plan has no truth table, so nothing says what is right. Write one on the page Table.');
  const made = simulate(meant ? { ...plan, ...meant } : plan, { still: true, bounce: false });
  if (!made.ok) return made;
  const found = switchedInputs(made.value);
  const poles = namedPoles(plan);
  const high = found.filter((f) => f.highWhenClosed).length * 2 >= found.length;
  const inputs = wanted.inputs.map(({ name, pin }): SwitchedInput | undefined => {
    const set = found.find((f) => f.pin === pin);
    const named = poles.get(name.toLowerCase());
    if (!named || (set && set.part === named.part && set.pole === named.pole)) return set;
    return { name, pin, part: named.part, pole: named.pole, highWhenClosed: high };
  });
  const lost = wanted.inputs[inputs.indexOf(undefined)];
  if (lost)
    return failed(
      'card/no-switch',
      'wanted',
      `No switch sets ${lost.name} (${lost.pin}), and no pole is called so. Name the pole that is to set it.`,
    );
  const outputs = new Map(wanted.outputs.flatMap((o, k) => ledsOfOutput(plan, o).map((id) => [id, k] as const)));
  return done({ wanted, inputs: inputs.filter((i) => i !== undefined), outputs });
}
