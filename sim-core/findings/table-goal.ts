/** What the LEDs of a bench are to show: its table, the poles that set each input, and which LED shows which output. */
import { done, failed, type Outcome } from '../../shared/outcome.ts';
import type { Plan } from '../../shared/plan.ts';
import { type NamedPole, namedPoles } from '../../shared/pole-names.ts';
import type { Simulation } from '../run/api.ts';
import { buildCircuit, type Circuit } from '../run/circuit/circuit.ts';
import { switchedOn } from '../run/circuit/switch-settings.ts';
import { simulate } from '../run/simulation.ts';
import { type SwitchedInput, switchedInputs } from '../run/switched-inputs.ts';
import { ledsOfOutput } from './led-of-output.ts';

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
  const bench = meant ? { ...plan, ...meant } : plan;
  const circuit = buildCircuit(bench);
  if (!circuit.ok) return circuit;
  const made = simulate(switchedOn(bench, circuit.value), { still: true, bounce: false });
  if (!made.ok) return made;
  const inputs = tableInputs(made.value, wanted, meant !== undefined);
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

/** By input of the table what is to set it; undefined: nothing is. isMeant: the bench is wired as it is meant, whatever its poles are called. */
export function tableInputs(
  sim: Simulation,
  wanted: NonNullable<Plan['wanted']>,
  isMeant: boolean,
): readonly (SwitchedInput | undefined)[] {
  const found = switchedInputs(sim);
  const asNamed = namedInputs(sim.circuit, wanted);
  return wanted.inputs.map((input) => {
    const set = found.find((f) => f.pin === input.pin);
    return isMeant ? set : asNamed(set, input);
  });
}

/** The input that the pole of its name is to set, whatever sets it as the bench is wired; without such a pole, what sets it. */
export function namedInputs(circuit: Circuit, wanted: NonNullable<Plan['wanted']>) {
  const poles = namedPoles(circuit.plan);
  const rails = wanted.inputs.flatMap(({ name }) => railOf(circuit, poles.get(name.toLowerCase())) ?? []);
  const usual = rails.filter((isPlus) => isPlus).length * 2 >= rails.length;
  return (set: SwitchedInput | undefined, { name, pin }: Pick<SwitchedInput, 'name' | 'pin'>): SwitchedInput | undefined => {
    const named = poles.get(name.toLowerCase());
    if (!named) return set;
    const { part, pole } = named;
    // a pole that goes the other way is meant so only where it works
    const own = set?.part === part && set.pole === pole && (railOf(circuit, named) ?? set.highWhenClosed) === set.highWhenClosed;
    return { name, pin, part, pole, highWhenClosed: own ? set.highWhenClosed : usual };
  };
}

/** What a pole switches to, by the mark of its rail: true for plus, whatever the supply is connected to. */
function railOf(circuit: Circuit, named: NamedPole | undefined): boolean | undefined {
  if (!named) return undefined;
  const sides = (circuit.contactsById.get(named.part)?.[named.pole]?.legs ?? []).map((leg) => circuit.netOf(leg));
  const marks = sides.flatMap((net) => net.strips.flatMap((s) => RAIL_STRIP.exec(s)?.[1] ?? []));
  return marks.length > 0 && marks.every((m) => m === marks[0]) ? marks[0] === '+' : undefined;
}

/** 'B1/+j', 'B1/-a0' */
const RAIL_STRIP = /\/([+-])[aj]/;
