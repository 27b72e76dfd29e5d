/** Pins that the table's columns can lie on: the address and data pins of the bench's memories, or of those that it may get. */
import type { PlanWanted } from '../../../shared/plan.ts';
import { PINS_TO_COME } from '../../../sim-core/index.ts';
import type { BenchModel } from '../../state/bench-model.ts';

type Lines = Pick<PlanWanted, 'inputs' | 'outputs'>;

export interface PinChoice {
  readonly inputs: readonly string[];
  readonly outputs: readonly string[];
}

/** Address pins of the first memory only: the others share its wires. */
export function pinChoice(model: BenchModel): PinChoice {
  const memories = model.specimens.flatMap(({ part, word }) => (word ? [{ id: part.id, ...word }] : []));
  const [first] = memories;
  if (!first) return PINS_TO_COME;
  return {
    inputs: first.address.map((name) => `${first.id}.${name}`),
    outputs: memories.flatMap((m) => m.data.map((name) => `${m.id}.${name}`)),
  };
}

/** The first pin that no column has yet. */
export const freePin = (side: keyof Lines, lines: Lines, choice: PinChoice): string | undefined =>
  choice[side].find((pin) => !lines[side].some((l) => l.pin === pin));

/** A name that nothing is called yet: 'A3', 'D0', by the pin where that can be. */
export function freeName(side: keyof Lines, lines: Lines, pin: string): string {
  const taken = new Set([...lines.inputs, ...lines.outputs].map((l) => l.name));
  const own = pin.slice(pin.indexOf('.') + 1);
  if (!taken.has(own)) return own;
  for (let n = 0; ; n++) {
    const name = `${side === 'inputs' ? 'in' : 'out'}${n}`;
    if (!taken.has(name)) return name;
  }
}

/** Lines for these names: one that there was keeps all it had, the others take free pins; undefined where there are not enough. */
export function linesFor(
  names: { readonly inputs: readonly string[]; readonly outputs: readonly string[] },
  before: Lines,
  choice: PinChoice,
): Lines | undefined {
  const of = <T extends { name: string; pin: string }>(
    side: keyof Lines,
    old: readonly T[],
  ): (T | { name: string; pin: string })[] | undefined => {
    const kept = names[side].map((name) => old.find((l) => l.name === name));
    const left = choice[side].filter((pin) => !kept.some((l) => l?.pin === pin));
    const lines = names[side].map((name, i) => kept[i] ?? { name, pin: left.shift() ?? '' });
    return lines.some((l) => l.pin === '') ? undefined : lines;
  };
  const [inputs, outputs] = [of('inputs', before.inputs), of('outputs', before.outputs)];
  return inputs && outputs && { inputs, outputs };
}
