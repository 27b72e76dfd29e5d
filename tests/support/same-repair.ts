/** Is a repair the one that was planted: does it touch the same thing, or leave the circuit that was meant? */
import type { Plan } from '../../shared/plan.ts';
import type { Fault } from '../../sim-core/faults/fault.ts';
import { apply, type Ref } from '../../sim-core/index.ts';
import type { Repair } from '../../sim-core/repair/search.ts';
import { buildCircuit } from '../../sim-core/run/circuit/circuit.ts';
import type { MeantBench } from './planted-fault.ts';

const key = ({ kind, id }: Ref) => `${kind} ${id}`;

/** Legs by net, whatever wires join them: two benches with the same text are the same circuit but for values and places. */
function wiringText(plan: Plan): string {
  const circuit = buildCircuit(plan);
  if (!circuit.ok) return circuit.failure.says;
  const nets = circuit.value.nets.all.map((net) =>
    net.legs
      .map((l) => `${l.part.id}.${l.pin}`)
      .sort()
      .join(' '),
  );
  return nets
    .filter((n) => n !== '')
    .sort()
    .join('\n');
}

export function isTouched(bench: MeantBench, fault: Fault, plan: Plan, { change, things }: Repair): boolean {
  const planted = new Set(fault.things.map(key));
  if (things.some((t) => planted.has(key(t)))) return true;
  return wiringText(apply(plan, change)) === wiringText(bench.plan);
}
