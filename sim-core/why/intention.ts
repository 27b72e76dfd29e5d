/** What the table wants where the switches stand: which pole sets each input, the row that they make, and how an LED is to look in it. */
import { ledsOfOutput } from '../findings/led-of-output.ts';
import type { RuleContext } from '../findings/rule-context.ts';
import { namedInputs, type TableGoal } from '../findings/table-goal.ts';
import type { SwitchedInput } from '../run/switched-inputs.ts';
import type { Look } from './answer.ts';
import { expectedPins } from './expected-address.ts';
import type { ExplanationQuestion } from './explanation-step.ts';

/** What is meant by the switches, from their poles' names where they have one. */
export interface Intention extends TableGoal {
  /** the row that the poles set */
  readonly row: number;
}

const known = new WeakMap<RuleContext, Intention | 'none'>();

/** undefined: there is no table, or one of its inputs has no pole that stands for it. */
export function intentionOf(q: ExplanationQuestion): Intention | undefined {
  const before = known.get(q.scene) ?? findIntention(q) ?? 'none';
  known.set(q.scene, before);
  return before === 'none' ? undefined : before;
}

function findIntention(q: ExplanationQuestion): Intention | undefined {
  const { circuit } = q.scene;
  const { wanted } = circuit.plan;
  if (!wanted) return undefined;
  const pins = circuit.chips.flatMap((chip) =>
    expectedPins(q, chip).map((p) => ({ ...p, pin: `${chip.placed.part.id}.${chip.inputs.find((i) => i.leg === p.leg)?.name}` })),
  );
  const asNamed = namedInputs(circuit, wanted);
  const inputs = wanted.inputs.flatMap(({ name, pin }): SwitchedInput[] => {
    const found = pins.find((p) => p.pin === pin);
    const set = found && { name, pin, part: found.contact.placed.part.id, pole: found.contact.pole, highWhenClosed: found.highWhenClosed };
    const input = asNamed(set, { name, pin });
    return input ? [input] : [];
  });
  if (inputs.length < wanted.inputs.length) return undefined;
  const isHigh = ({ part, pole, highWhenClosed }: SwitchedInput) =>
    (q.scene.readings.switches[part]?.[pole] ?? false) === highWhenClosed ? 1 : 0;
  return {
    wanted,
    inputs,
    row: inputs.reduce((row, input, bit) => row | (isHigh(input) << bit), 0),
    outputs: new Map(wanted.outputs.flatMap((o, k) => ledsOfOutput(circuit.plan, o).map((id) => [id, k] as const))),
  };
}

/** undefined: the table says nothing of it, or any will do. */
export function lookWanted(intention: Intention | undefined, led = ''): Look | undefined {
  const output = intention?.outputs.get(led);
  if (!intention || output === undefined) return undefined;
  const { wanted, row } = intention;
  if (((wanted.dontCare?.[row] ?? 0) >> output) & 1) return undefined;
  return ((wanted.rows[row] ?? 0) >> output) & 1 ? 'lit' : 'dark';
}
