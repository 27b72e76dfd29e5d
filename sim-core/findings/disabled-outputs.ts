/** Switches that keep a table's memories from driving their outputs, found by trying: those of an enable that stand otherwise than for reading. */

import { done, type Outcome } from '../../shared/outcome.ts';
import type { Plan } from '../../shared/plan.ts';
import { buildCircuit } from '../run/circuit/circuit.ts';
import { switchedOn } from '../run/circuit/switch-settings.ts';
import { simulate } from '../run/simulation.ts';
import { type PoleAt, switchAt } from '../run/switched-inputs.ts';

/** A pole, and how it would have to stand for this memory to read. */
export interface DisabledOutputs extends PoleAt {
  readonly memory: string;
}

/** Tried on a bench of its own: a write enable that is moved may write. inputs: poles that the table moves itself, which keep nothing asleep. */
export function disabledOutputs(plan: Plan, inputs: readonly Pick<PoleAt, 'part' | 'pole'>[]): Outcome<readonly DisabledOutputs[]> {
  const circuit = buildCircuit(plan);
  if (!circuit.ok) return circuit;
  const built = simulate(switchedOn(plan, circuit.value), { still: true });
  if (!built.ok) return built;
  const sim = built.value;
  const asked = new Set(plan.wanted?.outputs.map(({ pin }) => pin.slice(0, pin.indexOf('.'))));
  const found: DisabledOutputs[] = [];
  for (const { placed, spec } of sim.circuit.chips) {
    const memory = placed.part.id;
    if (!spec.word || !asked.has(memory)) continue;
    for (const [name, level] of Object.entries(spec.toRead ?? {})) {
      const set = switchAt(sim, `${memory}.${name}`);
      const closed = (level === 'H') === set?.highWhenClosed;
      const isInput = inputs.some((i) => i.part === set?.part && i.pole === set.pole);
      if (set && !isInput && (plan.switches[set.part]?.[set.pole] ?? false) !== closed)
        found.push({ part: set.part, pole: set.pole, closed, memory });
    }
  }
  return done(found);
}
